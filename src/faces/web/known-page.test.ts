/** What the records know, on the page in a real browser. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Entry } from "../../job/document";
import { patterns } from "../../set/patterns/kinds";
import { executablePath, type InBrowser, inBrowser } from "./in-browser.testdata";

let at: InBrowser;
const entry = (id: string, form: string, fields: Readonly<Record<string, string>>): Entry => ({
  id,
  at: "2026-01-02T00:00:00Z",
  who: "t",
  kind: "form",
  form,
  fields,
});
describe.runIf(executablePath)("what the records know", () => {
  beforeAll(async () => {
    at = await inBrowser(async (store) => {
      for (const [i, gm] of ["45", "92", "51", "88", "90", "40", "95"].entries()) {
        const entries = [
          entry("e1", "intake", { "What it is said to be": i < 4 ? "Invented Nine" : "Invented Five" }),
          entry("e2", "tubes", { "row 1: Type found": "6BA6", "row 1: gm %": gm }),
        ];
        await store.create({ id: `j${i}`, name: `Set ${i}`, created: "2026-01-01T00:00:00Z", set: patterns[1], entries });
      }
    });
  });
  afterAll(() => at?.close());

  it("is asked for by a kind of set or of part, reached from the list of jobs, with counts alone where there are few", async () => {
    const page = await at.open("#/");
    await page.getByRole("link", { name: /What the records know/ }).click();
    await page.getByLabel("Kind of part").fill("6BA6");
    await page.keyboard.press("Enter");
    const tubes = page.locator("#tubes li");
    // 3 of 7. Source: scipy 1.17.1, stats.binomtest(3, 7).proportion_ci(0.95, "wilson"): 0.1582 to 0.7495
    await tubes.filter({ hasText: "6BA6: worn or failed in 3 of 7 sets (16 to 75 % at 95 % confidence)." }).waitFor();
    await page.locator("#kinds li", { hasText: "Invented Nine: 4 sets" }).waitFor();
    await page.getByLabel("Kind of set").fill("nine");
    await page.getByRole("button", { name: "Look through all jobs" }).click();
    await tubes.filter({ hasText: "6BA6: worn or failed in 2 of 4 sets." }).waitFor();
    expect(await page.locator("main").textContent()).not.toContain(" %");
    expect(at.complaints).toEqual([]);
    await page.close();
  });
});

/** Every page at every width, by day and in the dark: nothing is wider than the screen, and axe-core finds nothing. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { patterns } from "../../set/patterns/kinds";
import { executablePath, type InBrowser, inBrowser, jobHash, noSideways, violations } from "./in-browser.testdata";
import { benchOfJobs } from "./page.testdata";

let at: InBrowser;
const open = (hash: string, width = 1600): Promise<Page> => at.open(hash, { width, height: 900 });
/** Sets a look of the page, wherever its button is. */
async function look(page: Page, name: string): Promise<void> {
  const more = page.locator(".more > summary");
  if ((await more.count()) > 0) await more.click();
  await page.getByRole("button", { name }).click();
  if ((await more.count()) > 0) await more.click();
}

describe.runIf(executablePath)("the page", () => {
  beforeAll(async () => {
    at = await inBrowser(benchOfJobs);
  });
  afterAll(() => at?.close());

  it.each([360, 820, 1600])(
    "draws each page at %i px without sideways scrolling and without an axe-core violation, by day and in the dark",
    async (width) => {
      for (const hash of [
        "#/",
        "#/describe",
        jobHash("Harbour"),
        jobHash("Harbour", "find"),
        jobHash("Harbour", "work", "cable-fitted", "fittings.qm"),
        jobHash("Harbour", "readings"),
        jobHash("Harbour", "records"),
        jobHash("Harbour", "parts"),
        jobHash("Harbour", "faults", "stages.if1"),
        jobHash("Harbour", "mend", "stages.if1"),
        jobHash("Harbour", "found-and-left"),
        jobHash("Harbour", "sitting"),
        jobHash("Harbour", "sheet", "suspects", "stages.if1"),
        jobHash("Harbour", "sheet", "safety"),
        jobHash("Harbour", "dial"),
        jobHash("Harbour", "sheet", "band-edge"),
        jobHash("Harbour", "set"),
        jobHash("Harbour", "sheet", "cable-load"),
        jobHash("Harbour", "sheet", "q-multiplier"),
      ]) {
        const page = await open(hash, width);
        await page.locator("main h1, main h2").first().waitFor();
        if (hash.includes("sheet")) await page.locator(".headline", { hasNotText: "Working it out" }).waitFor();
        expect(await violations(page), `${hash} at ${width}, day`).toEqual([]);
        expect(await noSideways(page), `${hash} at ${width}`).toBe(true);
        await look(page, "Dark room");
        expect(await violations(page), `${hash} at ${width}, dark`).toEqual([]);
        await look(page, "Large digits");
        expect(await noSideways(page), `${hash} at ${width}, large`).toBe(true);
        await page.evaluate(() => localStorage.clear());
        await page.close();
      }
    },
  );

  it.each(patterns.map((p) => [p.pattern, p] as const))(
    "draws the route of %s: every stage a tag with its state in words",
    async (name, p) => {
      const page = await open(jobHash(name));
      await page.locator(".tag").first().waitFor();
      expect(await page.locator(".tag:not(.hung)").count()).toBe(p.stages.length);
      expect(await page.locator(".tag .state").first().textContent()).toMatch(/untouched|found|in work|due again|proven/);
      if (p.chassis.state === "live") expect(await page.locator(".danger-line").textContent()).toContain("connected to the line");
      await page.close();
    },
  );

  it("asked nothing of any other machine, and met no error of its own", () => {
    expect(at.complaints).toEqual([]);
  });
});

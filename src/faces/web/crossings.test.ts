/** Two people on one job, on two pages: what both wrote past each other is shown on both, and settled by a tap. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openSqlite } from "../../store/sqlite";
import { playedDemo } from "./chassis.testdata";
import { executablePath, type InBrowser, inBrowser, jobHash, noSideways, violations } from "./in-browser.testdata";

let at: InBrowser;
describe.runIf(executablePath)("two values for one place", () => {
  beforeAll(async () => {
    at = await inBrowser(playedDemo);
  });
  afterAll(() => at?.close());

  it("stand on the set's page with who and when, narrow and wide, and are settled by saying which is right", async () => {
    const store = await openSqlite(at.store);
    const seen = (await store.load("Club set"))!.document.entries.at(-1)!.id;
    const write = (id: string, who: string, text: string) =>
      store.append("Club set", [
        { id, at: "2026-05-04T10:00:00Z", who, seen, kind: "form", form: "intake", fields: { "Serial or marks": text } },
      ]);
    await write("x-ann", "ann", "4711");
    await write("x-ben", "ben", "4117");
    for (const width of [390, 1440]) {
      const page = await at.open(jobHash("Club set"), { width, height: 900 });
      await page.locator(".crossing").waitFor();
      expect(await page.locator(".crossing").textContent()).toMatch(
        /Serial or marks has two values[\s\S]*4711[\s\S]*ann[\s\S]*4117[\s\S]*ben/,
      );
      expect(await violations(page)).toEqual([]);
      await noSideways(page);
      await page.close();
    }
    const page = await at.open(jobHash("Club set"));
    await page.getByRole("button", { name: "4711 is right" }).click();
    await page.locator(".crossing").waitFor({ state: "detached" });
    const last = (await store.load("Club set"))!.document.entries.at(-1)!;
    expect(last).toMatchObject({ kind: "form", fields: { "Serial or marks": "4711" } });
    expect(last.seen).toBe("x-ben");
    await page.close();
    await store.close();
  });
  it("are made where a page is typed into while another records: what came in meanwhile was not seen", async () => {
    const page = await at.open(jobHash("Club set", "sitting"));
    const field = page.locator("main input").first();
    await field.fill("AN");
    const store = await openSqlite(at.store);
    await store.append("Club set", [{ id: "meanwhile", at: "2026-05-04T10:01:00Z", who: "ben", kind: "done", step: "01", note: "" }]);
    await page.waitForResponse((r) => r.url().endsWith("/api/jobs/Club%20set"));
    const said = page.waitForRequest((r) => r.method() === "POST" && r.url().includes("/sitting"));
    await page
      .locator("main button")
      .filter({ hasText: /sit down/i })
      .first()
      .click();
    const heads = await (await said).allHeaders();
    expect(heads["x-seen"]).toBeDefined();
    expect(heads["x-seen"]).not.toBe("meanwhile");
    expect(heads["x-request"]).toMatch(/^[0-9a-f]{32}$/);
    await page.close();
    await store.close();
  });
});

/**
 * What a page that is opened first costs on the wire, headers among it, as a browser counts it that has kept nothing. Sizes, which no slow machine changes.
 * The worker of a question isn't in it: it loads beside the page, and is held by itself.
 */
import { statSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { playedDemo } from "./chassis.testdata";
import { executablePath, type InBrowser, inBrowser, jobHash } from "./in-browser.testdata";

/** What was asked for a first load, bytes. */
const mostBytes = 250_000;
let at: InBrowser;

/** Bytes of everything that a place loads, its workers among it; what streams on without an end isn't waited for. */
async function loaded(hash: string): Promise<number> {
  const page = await at.unused();
  const sizes: Promise<number>[] = [];
  page.on("requestfinished", (r) => {
    sizes.push(r.sizes().then((s) => s.responseBodySize + s.responseHeadersSize));
  });
  await page.goto(`${at.url}${hash}`);
  await page.locator("main h1, .bigpage").first().waitFor();
  await page.waitForLoadState("load");
  await page.getByText(/^(?:Opening|Weighing it|Working it out|Asking what explains them)…/).waitFor({ state: "detached" });
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
  const all = (await Promise.all(sizes)).reduce((sum, n) => sum + n, 0);
  await page.close();
  return all;
}
describe.runIf(executablePath)("what a first load weighs", () => {
  beforeAll(async () => {
    at = await inBrowser(playedDemo);
  });
  afterAll(() => at?.close());
  it.each([
    ["the list of jobs", "#/"],
    ["the set", jobHash("Club set")],
    ["a question", jobHash("Club set", "sheet", "volts")],
    ["a card", jobHash("Club set", "records", "voltage-chart")],
    ["the keypad", jobHash("Club set", "big", "voltage-chart")],
    ["the dial", jobHash("Club set", "dial")],
    ["the faults", jobHash("Club set", "faults")],
    ["the readings", jobHash("Club set", "readings")],
  ])("%s", async (name, hash) => {
    const bytes = await loaded(hash);
    expect(bytes, name).toBeGreaterThan(50_000);
    expect(bytes, name).toBeLessThan(mostBytes);
  });
  it("a job once, however late the server's first word of its store comes", async () => {
    const page = await at.unused();
    const asked: string[] = [];
    page.on("request", (r) => asked.push(r.url()));
    await page.route("**/api/events", async (r) => {
      // what a page needs is all there, and time to ask for more than that
      await page.getByText("Opening…").waitFor();
      await page.waitForTimeout(300);
      await r.continue();
    });
    await page.goto(`${at.url}${jobHash("Club set")}`);
    await page.locator(".tag").first().waitFor();
    await page.waitForLoadState("load");
    expect(asked.filter((url) => url.endsWith("/api/jobs/Club%20set"))).toHaveLength(1);
    await page.close();
  });
  it("what works a question out, as it is served", () => {
    expect(statSync(join(import.meta.dirname, "..", "..", "..", "dist", "page", "worker.js.br")).size).toBeLessThan(mostBytes);
  });
});

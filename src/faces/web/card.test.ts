/** A card that answers while it is written: down a column by enter, each cell judged, the base beside it, straight on to what explains it. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { playedDemo } from "./chassis.testdata";
import { executablePath, type InBrowser, inBrowser, jobHash, noSideways, violations } from "./in-browser.testdata";

let at: InBrowser;
const chart = jobHash("Club set", "records", "voltage-chart");

describe.runIf(executablePath)("a card", () => {
  beforeAll(async () => {
    at = await inBrowser(playedDemo);
  });
  afterAll(() => at?.close());

  it("is written down a column by enter, judges each reading as it is typed, and leads to what explains it", async () => {
    const page = await at.open(chart);
    const cell = (row: number) => page.getByLabel(`Measured V, row ${row}`, { exact: true });
    await cell(1).fill("231");
    await page
      .locator("tr", { has: cell(1) })
      .getByText(/as it should be: 2\d\d\sV/)
      .waitFor();
    await cell(1).press("Enter");
    expect(await cell(2).evaluate((e) => e === document.activeElement)).toBe(true);
    await page.keyboard.press("ControlOrMeta+A");
    await page.keyboard.type("20");
    const told = page.locator("tr.judged.wrong", { hasText: /low: this meter should read 1\d\d\sV/ });
    await told.first().waitFor();
    await page.keyboard.press("ArrowUp");
    expect(await cell(1).evaluate((e) => e === document.activeElement)).toBe(true);
    await told.first().getByRole("button", { name: "What explains it?" }).click();
    await page.locator(".headline").waitFor();
    expect(decodeURIComponent(page.url())).toContain("/sheet/");
    await page.goto(`${at.url}${jobHash("Club set")}`);
    await page.locator("#changed", { hasText: "Voltage chart, row 2, Measured V: 20; row 1, Measured V: 231" }).waitFor();
    await page.close();
  });

  it("draws the base of the tube in hand from below, the pin of the row in the accent, what is typed at its pin", async () => {
    const page = await at.open(chart);
    await page.getByLabel("Measured V, row 5", { exact: true }).fill("67.5");
    const base = page.locator(".plot.base svg");
    await page.locator(".plot.base", { hasText: "V4" }).waitFor();
    await page.waitForFunction(() => document.querySelector(".plot.base svg")?.getAttribute("aria-label")?.includes("Pin 6 screen 67.5"));
    expect(await base.getAttribute("aria-label")).toContain("The probe is at pin 6.");
    expect(await base.locator('text[font-weight="bold"]').allTextContents()).toEqual(["6 screen", "67.5 V"]);
    await page.evaluate(() => localStorage.clear());
    await page.close();
  });

  it.each([
    [1440, 900],
    [820, 1180],
    [390, 844],
  ])("breaks no rule of axe and doesn't scroll sideways at %i", async (width, height) => {
    const page = await at.open(chart, { width, height });
    await page.getByLabel("Measured V, row 2", { exact: true }).fill("20");
    await page.locator("tr.judged.wrong").first().waitFor();
    expect(await violations(page)).toEqual([]);
    expect(await noSideways(page)).toBe(true);
    await page.evaluate(() => localStorage.clear());
    await page.close();
  });
  it("met no error of its own", () => expect(at.complaints).toEqual([]));
});

/**
 * Every state of the page as a picture, wide, on a tablet and on a phone, by day and in the dark, under dist/gallery: to be looked through after a change.
 * It fails where a state can't be reached, scrolls sideways or meets an error.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { playedDemo } from "./chassis.testdata";
import { executablePath, type InBrowser, inBrowser, jobHash, noSideways } from "./in-browser.testdata";

const to = join(import.meta.dirname, "..", "..", "..", "dist", "gallery");
const sizes = { wide: { width: 1440, height: 900 }, tablet: { width: 1024, height: 768 }, phone: { width: 390, height: 844 } } as const;
const set = (...rest: string[]): string => jobHash("Club set", ...rest);
const states: readonly (readonly [name: string, hash: string])[] = [
  ["jobs", "#/"],
  ["describe", "#/describe"],
  ["set", set()],
  ["find", set("find")],
  ["faults", set("faults")],
  ["readings", set("readings")],
  ["dial", set("dial")],
  ["cards", set("records", "voltage-chart")],
  ["safety-card", set("records", "safety-in")],
  ["keypad", set("big", "voltage-chart")],
  ["join", set("join")],
  ["worth", set("worth")],
  ["work", set("work")],
  ["mend", set("mend", "stages.if1")],
  ["sitting", set("sitting")],
  ["found-and-left", set("found-and-left")],
  ["parts", set("parts")],
  ["proof", set("proof")],
  ["set-described", set("set")],
  ["before-opening", set("before-opening")],
  ["sheet-volts", set("sheet", "volts")],
  ["sheet-cable", set("sheet", "cable-load")],
  ["sheet-supply", set("sheet", "b-plus")],
  ["sheet-dial", set("sheet", "band-edge")],
];
let at: InBrowser;

describe.runIf(executablePath)("the gallery", () => {
  beforeAll(async () => {
    mkdirSync(to, { recursive: true });
    at = await inBrowser(playedDemo);
  });
  afterAll(() => at?.close());
  it.each(states)("%s", async (name, hash) => {
    const page = await at.open(hash, sizes.wide);
    await page.locator("main h1").first().waitFor();
    for (const [width, size] of Object.entries(sizes)) {
      await page.setViewportSize(size);
      await page.evaluate(() => new Promise<void>((drawn) => requestAnimationFrame(() => requestAnimationFrame(() => drawn()))));
      await page
        .getByText(
          /^(?:Opening|Weighing it|Working it out|Asking what explains them|Asking every question of this job|Asking the model|Reading the record)…/,
        )
        .waitFor({ state: "detached" });
      await page.evaluate(() => document.fonts.ready.then(() => undefined));
      expect(await noSideways(page), `${name}, ${width}`).toBe(true);
      for (const theme of ["day", "dark"]) {
        await page.evaluate((t) => {
          document.documentElement.dataset.theme = t;
        }, theme);
        await page.screenshot({ path: join(to, `${name}-${width}-${theme}.png`) });
      }
    }
    await page.close();
  });
  it("met no error of its own", () => expect(at.complaints).toEqual([]));
});

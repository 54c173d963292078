import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { executablePath, type InBrowser, inBrowser } from "./in-browser.testdata";
import { benchOfJobs } from "./page.testdata";

/** All that is in sight and follows a hand, as a person reads it. */
const inSight = (page: Page): Promise<Record<string, string>> =>
  page.evaluate(() => {
    const all = [...document.querySelectorAll(".says p, .pictures figcaption, .pictures .trace, .pictures .band, .pictures .tick")];
    const range = document.querySelector(".inputs input[type=range]")!;
    const typed = range.closest(".knob")!.querySelector<HTMLInputElement>(".typed")!;
    return {
      ...Object.fromEntries(all.map((e, i) => [`${i} ${e.className}`, e.getAttribute("d") ?? e.textContent ?? ""])),
      typed: typed.value,
      readOut: range.getAttribute("aria-valuetext") ?? "",
      pinned: document.querySelector(".pinned")?.textContent ?? "",
    };
  });
/** Where the first slider lies. */
const lies = async (page: Page) => (await page.locator(".inputs .hold").first().boundingBox())!;
/** Moves the mouse to a part of the first slider's way. */
const turned = async (page: Page, part: number): Promise<void> => {
  const { x, y, width, height } = await lies(page);
  await page.mouse.move(x + width * part, y + height / 2);
};

describe.skipIf(!executablePath)("what follows a hand", () => {
  let at: InBrowser;
  beforeAll(async () => {
    at = await inBrowser(benchOfJobs);
  });
  afterAll(() => at.close());

  it.each(["cable-load", "b-plus", "q-multiplier"])(
    "on %s: what is put while a hand moves is what the page, rendered whole, shows",
    async (sheet) => {
      const [wide, narrow] = [1440, 900];
      const page = await at.open(`#/job/Harbour/sheet/${sheet}`, { width: wide, height: 900 });
      await page.locator("main.sheet[aria-busy=false] .pictures figure.plot").first().waitFor();
      const atRest = await inSight(page);
      await turned(page, 0.5);
      await page.mouse.down();
      await turned(page, 0.3);
      // from here on the page looks the same but for what follows
      await page.locator(".number.was").waitFor();
      let [followed, rendered]: Record<string, string>[] = [{}, atRest];
      // an answer that comes between the two looks is no fault of either: then the hand moves on
      for (let i = 0; i < 40 && JSON.stringify(followed) !== JSON.stringify(rendered); i++) {
        const before = await inSight(page);
        await turned(page, 0.35 + 0.01 * i);
        await page.waitForFunction((was) => document.querySelector(".number .big")?.textContent !== was, before["0 big"]);
        await page.waitForTimeout(100);
        followed = await inSight(page);
        // another layout and back renders the whole page
        for (const width of [narrow, wide]) {
          await page.setViewportSize({ width, height: 900 });
          await page.waitForFunction((w) => innerWidth === w, width);
          await page.evaluate(() => new Promise((r) => requestAnimationFrame(() => requestAnimationFrame(r))));
        }
        rendered = await inSight(page);
      }
      expect(followed).toEqual(rendered);
      expect(followed["0 big"]).not.toBe(atRest["0 big"]);
      await page.mouse.up();
      await page.locator("main.sheet[aria-busy=false]").waitFor();
      expect(await page.locator(".trying").count()).toBe(1);
      await page.close();
    },
  );
});

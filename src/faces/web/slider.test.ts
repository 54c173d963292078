import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { executablePath, type InBrowser, inBrowser } from "./in-browser.testdata";
import { benchOfJobs } from "./page.testdata";
import { waitsMs } from "./sheet/knob";
import { alongAt, knobPx } from "./sheet/scale";

const hold = ".inputs .hold";
const lies = async (page: Page) => (await page.locator(hold).first().boundingBox())!;
/** Where the knob of the first slider stands, and what is typed beside it. */
const stands = (page: Page): Promise<{ readonly stop: number; readonly typed: string }> =>
  page.evaluate(() => {
    const range = document.querySelector<HTMLInputElement>(".inputs input[type=range]")!;
    return { stop: Number(range.value), typed: range.closest(".knob")!.querySelector<HTMLInputElement>(".typed")!.value };
  });
const toStop = async (page: Page, stop: number): Promise<void> => {
  const { x, y, width, height } = await lies(page);
  await page.mouse.move(x + alongAt(stop, width), y + height / 2);
};
/** What is said "to be tried", when nothing is worked out any more. */
const tryingAtRest = async (page: Page): Promise<number> => {
  await page.locator("main.sheet[aria-busy=false]").waitFor();
  return page.locator(".trying").count();
};

describe.skipIf(!executablePath)("a slider", () => {
  let at: InBrowser;
  beforeAll(async () => {
    at = await inBrowser(benchOfJobs);
  });
  afterAll(() => at.close());
  const opened = async (size = { width: 1440, height: 900 }): Promise<Page> => {
    const page = await at.open("#/job/Harbour/sheet/cable-load", size);
    await page.locator("main.sheet[aria-busy=false] .pictures figure.plot").first().waitFor();
    await page.locator(hold).first().hover();
    return page;
  };
  /** Holds the knob, away from the record. */
  const held = async (): Promise<Page> => {
    const page = await opened();
    await toStop(page, (await stands(page)).stop);
    await page.mouse.down();
    await toStop(page, 60);
    await page.locator(".number.was").waitFor();
    return page;
  };

  it("draws its knob with the answer to it, not before and once more with it", async () => {
    const page = await held();
    await page.evaluate((ms) => {
      // however long an answer takes on a slow machine, it is waited for
      const later = window.setTimeout;
      Object.assign(window, {
        setTimeout: (f: TimerHandler, after?: number) => (after === ms ? 0 : later(f, after)),
        seen: [] as string[],
      });
      const w = window as unknown as { seen: string[] };
      new MutationObserver((changes) => {
        const what = changes.map((c) => (c.attributeName === "aria-valuetext" ? "knob" : c.attributeName === "d" ? "picture" : ""));
        w.seen.push([...new Set(what)].filter(Boolean).sort().join(" and "));
      }).observe(document.querySelector(".bench")!, { subtree: true, attributes: true, attributeFilter: ["aria-valuetext", "d"] });
    }, waitsMs);
    for (let i = 1; i <= 8; i++) {
      await toStop(page, 60 + 5 * i);
      await page.waitForFunction((n) => (window as unknown as { seen: string[] }).seen.length >= n, i);
      expect((await stands(page)).stop).toBe(60 + 5 * i);
    }
    expect(new Set(await page.evaluate(() => (window as unknown as { seen: string[] }).seen))).toEqual(new Set(["knob and picture"]));
    await page.mouse.up();
    await page.close();
  });

  it("goes ahead of an answer that doesn't come", async () => {
    const page = await held();
    await page.evaluate(() => {
      Worker.prototype.postMessage = () => undefined;
    });
    const before = await stands(page);
    await toStop(page, 90);
    await expect.poll(() => stands(page)).toMatchObject({ stop: 90 });
    expect((await stands(page)).typed).not.toBe(before.typed);
    await page.mouse.up();
    await page.close();
  });

  it("doesn't jump where its knob is pressed off the middle, and goes where its groove is pressed", async () => {
    const page = await opened();
    const before = await stands(page);
    const { x, y, width, height } = await lies(page);
    await page.mouse.move(x + alongAt(before.stop, width) + knobPx / 3, y + height / 2);
    await page.mouse.down();
    await page.mouse.up();
    expect(await tryingAtRest(page)).toBe(0);
    expect(await stands(page)).toEqual(before);
    await toStop(page, 150);
    await page.mouse.down();
    await page.mouse.up();
    await page.locator(".trying").waitFor();
    expect((await stands(page)).stop).toBe(150);
    // and it goes by keys
    await page.keyboard.press("ArrowLeft");
    await expect.poll(() => stands(page)).toMatchObject({ stop: 149 });
    await page.close();
  });

  it("is turned by a finger sideways, and left alone by one that scrolls the page", async () => {
    const page = await opened({ width: 390, height: 844 });
    const cdp = await page.context().newCDPSession(page);
    await cdp.send("Emulation.setTouchEmulationEnabled", { enabled: true });
    const before = await stands(page);
    const from = await page.evaluate(() => scrollY);
    const touch = (type: "touchStart" | "touchMove" | "touchEnd", x = 0, y = 0) =>
      cdp.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y }] });
    const { x, y, width, height } = await lies(page);
    const [left, middle] = [x + alongAt(before.stop / 2, width), y + height / 2];
    await touch("touchStart", left, middle);
    for (let up = 10; up <= 120; up += 10) await touch("touchMove", left, middle - up);
    await touch("touchEnd");
    await expect.poll(() => page.evaluate(() => scrollY)).not.toBe(from);
    expect(await tryingAtRest(page)).toBe(0);
    expect(await stands(page)).toEqual(before);
    await page.locator(hold).first().hover();
    const now = await lies(page);
    const along = (stop: number) => [now.x + alongAt(stop, now.width), now.y + now.height / 2] as const;
    await touch("touchStart", ...along(before.stop));
    for (let stop = before.stop; stop >= 40; stop -= 8) await touch("touchMove", ...along(stop));
    await touch("touchEnd");
    await page.locator(".trying").waitFor();
    await page.locator("main.sheet[aria-busy=false]").waitFor();
    expect((await stands(page)).stop).toBeLessThan(60);
    await page.close();
  });
});

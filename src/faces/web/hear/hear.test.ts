/** A rehearsal in a real browser: heard, switched, changed while it plays. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { playedDemo } from "../chassis.testdata";
import { executablePath, type InBrowser, inBrowser, jobHash, noSideways, violations } from "../in-browser.testdata";

let at: InBrowser;
describe.runIf(executablePath)("a change heard before it is made", () => {
  beforeAll(async () => {
    at = await inBrowser(playedDemo);
  });
  afterAll(() => at?.close());

  it("is one tap from its question; both sides play, are switched, and follow a knob while they play", async () => {
    const page = await at.open("");
    // what is played is listened to on its way out: loudest sample of a second
    await page.addInitScript(() => {
      type Connect = (this: AudioNode, to: AudioNode, ...more: number[]) => AudioNode;
      const connect: Connect = Reflect.get(AudioNode.prototype, "connect");
      const taps: AnalyserNode[] = [];
      Object.assign(window, {
        loudest: async () => {
          let top = 0;
          for (let i = 0; i < 200 && top < 0.05; i++) {
            for (const tap of taps) {
              const x = new Float32Array(tap.fftSize);
              tap.getFloatTimeDomainData(x);
              for (const v of x) top = Math.max(top, Math.abs(v));
            }
            await new Promise((on) => setTimeout(on, 50));
          }
          return top;
        },
      });
      const tapped: Connect = function (to, ...more) {
        if (to === this.context.destination) {
          const tap = new AnalyserNode(this.context, { fftSize: 2048 });
          taps.push(tap);
          connect.call(this, tap);
        }
        return connect.call(this, to, ...more);
      };
      Reflect.set(AudioNode.prototype, "connect", tapped);
    });
    await page.goto(`${at.url}${jobHash("Club set", "sheet", "q-multiplier")}`);
    await page.reload();
    await page.getByRole("link", { name: "Hear it first" }).click();
    await page.getByRole("button", { name: "Play" }).click();
    const row = page.locator("tr", { hasText: "AM audio, 3 dB down at" });
    const before = await row.locator("td").nth(1).textContent();
    await page.getByRole("button", { name: "as it would be" }).click();
    expect(await page.getByRole("button", { name: "as it would be" }).getAttribute("aria-pressed")).toBe("true");
    expect(await page.evaluate(() => (window as unknown as { loudest: () => Promise<number> }).loudest())).toBeGreaterThan(0.05);
    await page.getByLabel("Regeneration, as a part of where it oscillates").fill("0.5");
    await page.waitForFunction((was) => document.querySelectorAll("tbody tr td")[1]?.textContent !== was, before);
    expect(await row.locator("td").nth(0).textContent()).toMatch(/^\d+ Hz$/);
    expect(Number.parseInt((await row.locator("td").nth(1).textContent()) ?? "", 10)).toBeGreaterThan(Number.parseInt(before ?? "", 10));
    expect(await page.getByRole("button", { name: "Stop", exact: true }).count()).toBe(1);
    expect(await violations(page)).toEqual([]);
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await noSideways(page)).toBe(true);
    await page.getByLabel("Whistles: how far off, how strong").fill("20 kHz, 0 dB");
    await page.getByText(/--whistle: read "20 kHz", expected within 11 kHz/).waitFor();
    await page.close();
  });
  it("met no error of its own", () => expect(at.complaints).toEqual([]));
});

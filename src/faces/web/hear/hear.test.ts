/** A rehearsal in a real browser: heard, switched, changed while it plays. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { chunk, formatChunk, pcm16, riff } from "../../../readings/sound/waves.testdata";
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
    expect(await row.locator("td").nth(0).textContent()).toMatch(/^\d+\sHz$/);
    expect(Number.parseInt((await row.locator("td").nth(1).textContent()) ?? "", 10)).toBeGreaterThan(Number.parseInt(before ?? "", 10));
    expect(await page.getByRole("button", { name: "Stop", exact: true }).count()).toBe(1);
    expect(await violations(page)).toEqual([]);
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await noSideways(page)).toBe(true);
    await page.getByLabel("Whistles: how far off, how strong").fill("20 kHz, 0 dB");
    await page.getByText(/a plain carrier: read "20\skHz", expected within 11\skHz/).waitFor();
    await page.close();
  });
  it("takes the person's own recording of a band, read in this browser alone; both sides are saved with a card that says what they are", async () => {
    const rate = 48_000;
    // an AM carrier 2 kHz above the centre, 80 % of 400 Hz on it
    const iq = new Int16Array(2 * 6 * rate);
    for (let i = 0; i < iq.length / 2; i++) {
      const a = 8000 * (1 + 0.8 * Math.cos((2 * Math.PI * 400 * i) / rate));
      iq[2 * i] = Math.round(a * Math.cos((2 * Math.PI * 2000 * i) / rate));
      iq[2 * i + 1] = Math.round(a * Math.sin((2 * Math.PI * 2000 * i) / rate));
    }
    const path = join(at.folder, "evening.wav");
    writeFileSync(path, riff([formatChunk({ ...pcm16, rate, channels: 2 }), chunk("data", new Uint8Array(iq.buffer))]));
    const page = await at.open(jobHash("Club set", "hear", "q-multiplier"));
    await page.getByText("as the sheet on sensitivity has them").waitFor();
    const uploads: string[] = [];
    page.on("request", (r) => {
      if (r.method() === "POST" && (r.postDataBuffer()?.length ?? 0) > 20_000) uploads.push(r.url());
    });
    await page.getByLabel("A recording of your own in its place").setInputFiles(path);
    await page.getByText("a recording through it that was not taken of this set's sound: evening.wav").waitFor();
    await page.getByLabel("Where in it the station stands").fill("30 kHz");
    await page.getByText(/Where in it the station stands: .*half of its sample rate/).waitFor();
    await page.getByLabel("Where in it the station stands").fill("2 kHz");
    await page.getByText("Ready.").waitFor();
    expect(await page.locator("tbody th").allTextContents()).toEqual([
      "AM audio, 3\u00a0dB down at",
      "noise that comes through, as a bandwidth",
    ]);
    const saving = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save both sides as a WAV file" }).click();
    const saved = readFileSync(await (await saving).path());
    expect(saved.subarray(0, 400).toString("latin1")).toContain("A model of this set's strip, and a recording through it");
    expect(saved.readUInt16LE(22)).toBe(2);
    // each side sounds 400 Hz, which goes through 24,000 samples a second 60 to the period
    const data = saved.subarray(saved.indexOf("data") + 8);
    for (const side of [0, 1]) {
      let [re, im, all] = [0, 0, 0];
      for (let i = 24_000; i < 48_000; i++) {
        const v = data.readInt16LE(4 * i + 2 * side) / 32768;
        re += (v * Math.cos((2 * Math.PI * 400 * i) / 24_000)) / 12_000;
        im += (v * Math.sin((2 * Math.PI * 400 * i) / 24_000)) / 12_000;
        all += (v * v) / 24_000;
      }
      expect((re * re + im * im) / 2 / all).toBeGreaterThan(0.9);
    }
    expect(uploads).toEqual([]);
    expect(await violations(page)).toEqual([]);
    if (process.env.FETTLE_PICTURES) await page.screenshot({ path: join(process.env.FETTLE_PICTURES, "hear.png"), fullPage: true });
    await page.close();
  });
  it("met no error of its own", () => expect(at.complaints).toEqual([]));
});

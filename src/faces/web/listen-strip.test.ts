/** Selectivity on the page, beside the BFO and by a stepped generator; a sound device's response kept for its input; a packed recording in the browser's worker. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { viewOf } from "../../job/view";
import { normalStream } from "../../numerics/random";
import { made, tau, wav16 } from "../../readings/sound/waves.testdata";
import { openSqlite } from "../../store/sqlite";
import { executablePath, type InBrowser, inBrowser, jobHash, violations } from "./in-browser.testdata";
import { benchOfJobs } from "./page.testdata";

const folder = mkdtempSync(join(tmpdir(), "listen-strip-"));
const rate = 12_000;
const file = (name: string, x: Float64Array): string => {
  const path = join(folder, name);
  writeFileSync(path, wav16(x, rate));
  return path;
};
const sample = (name: string): string => join(import.meta.dirname, "../../../samples/first-job", name);
const pole = (hz: number): number => Math.exp((-tau * hz) / rate);
/** One pole up to so many hertz, as a sound device's or an amplifier's end. */
const lowPass = (x: Float64Array, hz: number): Float64Array => {
  let y = 0;
  return x.map((v) => (y += (1 - pole(hz)) * (v - y)));
};
/** What such a pole leaves: no lows, as behind a coupling capacitor. */
const without = (x: Float64Array, hz: number): Float64Array => {
  const low = lowPass(x, hz);
  return x.map((v, i) => v - low[i]);
};
/** Noise of one strip pole, 300 Hz to either side of 465 kHz, beside a BFO 3 kHz below. */
function besideBfo(): Float64Array {
  const seconds = 30;
  const z = normalStream(3, "strip", 2 * rate * seconds);
  const p = pole(300);
  let [re, im] = [0, 0];
  return Float64Array.from({ length: rate * seconds }, (_, i) => {
    re = p * re + (1 - p) * z[2 * i];
    im = p * im + (1 - p) * z[2 * i + 1];
    return 0.5 * (re * Math.cos((tau * 3000 * i) / rate) - im * Math.sin((tau * 3000 * i) / rate));
  });
}
const widthHz = 4000;
const stepS = 1;
/** 400 Hz of a generator that stands a second at each of 41 frequencies, 445 to 465 kHz, through one resonance 4 kHz wide. */
const stepped = made(
  rate,
  41 * stepS,
  (t) => {
    const hz = 445e3 + 500 * Math.min(40, Math.floor(t / stepS));
    return (0.3 / Math.hypot(1, (2 * (hz - 455e3)) / widthHz)) * Math.sin(tau * 400 * t);
  },
  0.0005,
);

let b: InBrowser;
beforeAll(async () => {
  if (executablePath) b = await inBrowser(benchOfJobs);
});
afterAll(async () => {
  await b?.close();
  rmSync(folder, { recursive: true, force: true });
});
const slot = (page: Page, says: string) => page.getByRole("group", { name: says });
const take = (page: Page, says: string, path: string): Promise<void> => slot(page, says).getByLabel("From a recording").setInputFiles(path);
async function lastReading() {
  const store = await openSqlite(b.store);
  const { readings } = viewOf((await store.load("Harbour"))!.document);
  await store.close();
  return readings.at(-1)!;
}

describe.runIf(executablePath)("selectivity by the sound, on the page", () => {
  it("beside the BFO: refused until the far side and the audio response are known, then a sweep of the IF", async () => {
    const page = await b.open(jobHash("Harbour", "listen", "response"));
    const bfo = slot(page, "The set's own noise, BFO on");
    const noise = file("strip.wav", lowPass(besideBfo(), 2000));
    await take(page, "The set's own noise, BFO on", noise);
    await page.getByText(/Frequency of the BFO, at the IF: .*expected frequency of the BFO/).waitFor();
    await bfo.getByLabel("Frequency of the BFO").fill("462 kHz");
    await bfo.getByLabel("The side of the BFO that is heard").selectOption("upper");
    await bfo.getByLabel("The other side is down by at least").fill("3 dB");
    await bfo.getByLabel("From a recording").setInputFiles([]);
    await take(page, "The set's own noise, BFO on", noise);
    await page.getByText("both sides are heard at once").waitFor();
    await bfo.getByLabel("The other side is down by at least").fill("40 dB");
    await bfo.getByLabel("From a recording").setInputFiles([]);
    await take(page, "The set's own noise, BFO on", noise);
    await page.getByText("the audio response, measured first").waitFor();
    await take(
      page,
      "Test noise through the audio",
      file(
        "audio.wav",
        lowPass(
          made(rate, 30, () => 0, 0.15, 2),
          2000,
        ),
      ),
    );
    await page.getByText("Selectivity by noise through the product detector, BFO at 462000 Hz, upper side").waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole("button", { name: "Keep as a sweep of the IF" }).click();
    await page.getByText(/^Kept as reading r-\w+, a sweep of the IF/).waitFor();
    await page.close();
    const { as, columns } = await lastReading();
    expect(as).toBe("if-sweep");
    // one pole, 300 Hz to either side: 3 dB down there by definition
    const near = columns.frequencyHz.flatMap((f, i) => (Math.abs(Math.abs(f - 465e3) - 300) < 60 ? [columns.levelDb[i]] : []));
    for (const db of near) expect(Math.abs(db + 3)).toBeLessThan(1.6);
    expect(near.length).toBeGreaterThan(0);
  });

  it("by a stepped generator: too fast is refused with the largest rate, else the resonance's own width comes out", async () => {
    const page = await b.open(jobHash("Harbour", "listen", "response"));
    const generator = slot(page, "A stepped generator");
    const path = file("stepped.wav", stepped);
    for (const [label, text] of [
      ["Generator's first frequency", "445 kHz"],
      ["Its last frequency", "465 kHz"],
      ["Steps; empty", "41"],
      ["From the first to the end", "4 s"],
    ])
      await generator.getByLabel(label).fill(text);
    await generator.getByLabel("AVC meanwhile").selectOption("off");
    await take(page, "A stepped generator", path);
    await page.getByText(/at most \d+\sHz a second/).waitFor();
    await generator.getByLabel("From the first to the end").fill("41 s");
    await generator.getByLabel("From a recording").setInputFiles([]);
    await take(page, "A stepped generator", path);
    await page.getByText("Selectivity by a generator with fixed modulation of 400 Hz").waitFor();
    const row = page.locator("tr", { has: page.getByRole("rowheader", { name: "3 dB", exact: true }) });
    const ends = (await row.locator("td").allTextContents()).map((t) => Number(/^([\d.]+)\skHz/.exec(t)?.[1]) * 1e3);
    expect(Math.abs(ends[1] - ends[0] - widthHz)).toBeLessThan(0.03 * widthHz);
    expect(Math.abs((ends[0] + ends[1]) / 2 - 455e3)).toBeLessThan(100);
    if (process.env.FETTLE_PICTURES) await page.screenshot({ path: join(process.env.FETTLE_PICTURES, "strip.png"), fullPage: true });
    await page.close();
  });

  it("the device's response, kept once for its input, is undone in hum too; a FLAC file is heard in the worker", async () => {
    const page = await b.open("#/listen/response");
    await page.getByText("own response is in what is measured").waitFor();
    const hiss = made(rate, 30, () => 0, 0.15, 1);
    await take(page, "Sound device alone", file("loop.wav", without(hiss, 150)));
    await page.getByRole("button", { name: "Keep this response for this input" }).click();
    await page.getByText("as a loop-back measured it, is undone").waitFor();
    await page.getByRole("link", { name: "Hum", exact: true }).click();
    const hum = file(
      "hum.wav",
      made(rate, 12, (t) => 0.05 * Math.sin(tau * 60 * t) + 0.02 * Math.sin(tau * 120 * t), 0.001),
    );
    await take(page, "As it is used", hum);
    await page.getByText(/^The mains is at (?:60\.0|59\.9)/).waitFor();
    await page.getByText("as a loop-back measured it, is undone").waitFor();
    const undone = Number(await page.locator("[data-hum]").getAttribute("data-hum"));
    await page.getByRole("button", { name: "Forget this input's response" }).click();
    await take(page, "At full output", sample("hum.flac"));
    await slot(page, "At full output").getByText("hum.flac").waitFor();
    await slot(page, "At full output").getByRole("button", { name: "Leave it out" }).click();
    await slot(page, "As it is used").getByLabel("From a recording").setInputFiles([]);
    await take(page, "As it is used", hum);
    await expect.poll(async () => Number(await page.locator("[data-hum]").getAttribute("data-hum"))).not.toBe(undone);
    const plain = Number(await page.locator("[data-hum]").getAttribute("data-hum"));
    // f²/(f² + 150²) is 8.6 dB down at 60 Hz and 4.1 dB at 120 Hz, half of it the input's: 4.3 and 2.0 dB, 4.1 dB of both
    expect(Math.abs(undone - plain - 4.1)).toBeLessThan(0.5);
    await page.close();
  });
  it("a FLAC file that is dropped is kept as it came", async () => {
    const page = await b.open(jobHash("Harbour", "readings"));
    await page.locator("#read input[type=file]").setInputFiles(sample("beat.flac"));
    await page.getByText(/^A FLAC recording of /).waitFor();
    await page.getByText("strongest tone").first().waitFor();
    await page.getByRole("button", { name: "Keep this reading" }).click();
    await page.getByText(/^Recorded r-\w+/).waitFor();
    const { as, file: kept } = await lastReading();
    expect([as, kept.name]).toEqual(["recording", "beat.flac"]);
    const store = await openSqlite(b.store);
    expect((await store.files("Harbour")).find((f) => f.hash === kept.hash)?.media).toBe("audio/flac");
    await store.close();
    await page.close();
  });
  it("no page met an error or asked anything elsewhere", () => expect(b.complaints).toEqual([]));
});

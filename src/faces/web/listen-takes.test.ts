/** Hum, noise, crackle and response in a real browser: live from a stereo input with the signal on its left, and from files; compared, kept, stopped. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { viewOf } from "../../job/view";
import { made, tau, wav16 } from "../../readings/sound/waves.testdata";
import { openSqlite } from "../../store/sqlite";
import { executablePath, hearing, type InBrowser, inBrowser, jobHash, noSideways, violations } from "./in-browser.testdata";
import { benchOfJobs } from "./page.testdata";

const folder = mkdtempSync(join(tmpdir(), "listen-takes-"));
const rate = 48_000;
const file = (name: string, bytes: Uint8Array): string => {
  writeFileSync(join(folder, name), bytes);
  return join(folder, name);
};
/** Hum of 60.03 Hz with its second, a whole number of its periods, so that the ring that the browser plays has no seam. */
const hum = made(rate, 100 / 6.003, (t) => 0.02 * Math.sin(tau * 60.03 * t) + 0.1 * Math.sin(tau * 120.06 * t), 0.002);
const clicks = (count: number): Uint8Array => {
  const x = made(rate, 30, () => 0, 0.01, 3);
  for (let k = 0; k < count; k++) for (let i = 0; i < 20; i++) x[Math.round((2 + k * 1.3 + 0.4 * Math.sin(k * k)) * rate) + i] += 0.8;
  return wav16(x, rate);
};
let b: InBrowser;
beforeAll(async () => {
  if (!executablePath) return;
  const input = file("hum.wav", wav16(hum, rate));
  b = await inBrowser(benchOfJobs, hearing(input));
});
afterAll(async () => {
  await b?.close();
  rmSync(folder, { recursive: true, force: true });
});
/** The browser's fake input has its sound on both sides: here it comes by the left one of two alone. */
function onTheLeft(): void {
  const media = navigator.mediaDevices;
  const open = media.getUserMedia.bind(media);
  media.getUserMedia = async (c) => {
    const context = new AudioContext({ sampleRate: 48_000 });
    const [sides, both] = [context.createChannelMerger(2), context.createMediaStreamDestination()];
    context.createMediaStreamSource(await open(c)).connect(sides, 0, 0);
    sides.connect(both);
    return both.stream;
  };
}
const slot = (page: Page, says: string) => page.getByRole("group", { name: says });
const take = async (page: Page, says: string, path: string): Promise<void> => {
  await slot(page, says).getByLabel("From a recording").setInputFiles(path);
};
/** The page has its own words, none of the command line's. */
const noOptions = async (page: Page): Promise<void> => expect(await page.locator("main").textContent()).not.toMatch(/--[a-z]|fettle [a-z]/);
async function readingNamed(name: string) {
  const store = await openSqlite(b.store);
  const { readings } = viewOf((await store.load("Harbour"))!.document);
  await store.close();
  return readings.filter((r) => r.file.name === name).at(-1)!;
}

describe.runIf(executablePath)("recordings compared", () => {
  it("hum: live as it goes, on the side that the signal is on, which is told and can be chosen", async () => {
    const page = await b.open("#/listen/hum");
    await page.evaluate(onTheLeft);
    await page.getByRole("button", { name: "Listen", exact: true }).click();
    await page.getByText("Left channel: the signal is on this side alone.").waitFor();
    await slot(page, "As it is used").getByRole("button", { name: "Take it now" }).click();
    // whatever a busy machine loses on the way, the interval holds the truth, and is narrow after a while
    const mains = async (): Promise<boolean> => {
      const said = (await page.getByText(/^The mains is at/).textContent()) ?? "";
      const [, low, high] = /\(([\d.]+) to ([\d.]+)\)/.exec(said) ?? [];
      return Number(low) <= 60.03 && 60.03 <= Number(high) && Number(high) - Number(low) < 0.15;
    };
    await expect.poll(mains).toBe(true);
    // 0.1 and 0.02 of full scale: -22.8 dB rms together
    await expect.poll(async () => Number(await page.locator("[data-hum]").getAttribute("data-hum"))).toBeCloseTo(-22.8, 0);
    await slot(page, "As it is used").getByRole("button", { name: "That will do" }).click();
    await page.getByText("ripple of a full-wave supply").waitFor();
    await noOptions(page);
    await page.getByLabel("Channel").selectOption("1");
    await slot(page, "Volume at zero").getByRole("button", { name: "Take it now" }).click();
    await page.getByText("Right channel, and the other one is louder").waitFor();
    await page.close();
  });

  it("hum: how far it lies under full output, with its interval; under its own sound where that was not taken", async () => {
    const page = await b.open("#/listen/hum");
    await take(page, "As it is used", join(folder, "hum.wav"));
    await page.getByText("dB under the whole sound of this recording.").waitFor();
    // a sine of half of full scale, -9.03 dB rms, over hum of -22.84 dB
    await take(
      page,
      "At full output",
      file(
        "full.wav",
        wav16(
          made(rate, 10, (t) => 0.5 * Math.sin(tau * 1000 * t), 1e-4),
          rate,
        ),
      ),
    );
    const said = (await page.getByText("under full output.").textContent()) ?? "";
    const [, db, low, high] = /^([\d.]+)\sdB \(([\d.]+) to ([\d.]+)\)/.exec(said) ?? [];
    expect(db).toBe("13.8");
    expect(Number(low)).toBeLessThan(13.81);
    expect(Number(high)).toBeGreaterThan(13.81);
    expect(await page.getByText("under the whole sound of this recording").count()).toBe(0);
    await page.close();
  });

  it("crackle: with the antenna and without, from files; kept as a reading with its events and what they can't tell", async () => {
    const page = await b.open(jobHash("Harbour", "listen", "crackle"));
    await take(page, "As it is used", file("crackles.wav", clicks(20)));
    await page.getByText("Whether it comes down the antenna can't be told from one recording").waitFor();
    await noOptions(page);
    await take(page, "Without the antenna", file("antenna-off.wav", clicks(0)));
    await page.getByText("Without the antenna it is gone: it comes from outside").waitFor();
    expect(await page.locator("[data-rate=burst]").allTextContents()).toEqual(["40.0", "0.0"]);
    await page.getByRole("button", { name: "Keep as a reading" }).click();
    await page.getByText(/^Kept as reading r-\w+/).waitFor();
    const kept = await readingNamed("crackles.wav");
    expect(kept.columns.timeS).toHaveLength(20);
    expect(kept.figures.map((f) => f.name)).toEqual([
      "bursts a minute",
      "jumps a minute",
      "bursts a minute, without antenna",
      "jumps a minute, without antenna",
    ]);
    expect(kept.warnings.join(" ")).toContain("does not tell which stage or part it is");
    expect(await violations(page)).toEqual([]);
    await page.close();
  });

  it("noise: the rise from dummy load to antenna is refused unless the gain was set by hand and AVC was off, then kept", async () => {
    const page = await b.open(jobHash("Harbour", "listen", "noise"));
    const hiss = (a: number, seed: number) =>
      wav16(
        made(12_000, 20, () => 0, a, seed),
        12_000,
      );
    await take(page, "Modulation on, or antenna on", file("antenna.wav", hiss(0.1, 1)));
    await page.getByText(/^Noise floor: /).waitFor();
    await take(page, "Dummy load for the antenna", file("dummy.wav", hiss(0.05, 2)));
    await page.getByText(/^Rise from dummy load to antenna: (?:5\.9|6\.[01])\sdB/).waitFor();
    await page.getByRole("button", { name: "Keep as a reading" }).click();
    await page.getByText("the RF gain set by hand and left there for both recordings").waitFor();
    await page.getByLabel("RF gain").selectOption("manual");
    await page.getByLabel("AVC").selectOption("off");
    await page.getByRole("button", { name: "Keep as a reading" }).click();
    await page.getByText(/^Kept as reading r-\w+/).waitFor();
    expect((await readingNamed("antenna.wav")).figures.map((f) => f.name)).toContain("rise of the noise from dummy load to antenna");
    await page.close();
  });

  it("response: the set's noise, AM, is a bound and no selectivity; a long file is stopped when asked, silence is told", async () => {
    const page = await b.open(jobHash("Harbour", "listen", "response"));
    expect(await slot(page, "Test noise through the audio").textContent()).toContain("B+ kills: clip the noise to nothing inside the set");
    await take(
      page,
      "The set's own noise, AM",
      file(
        "hiss.wav",
        wav16(
          made(12_000, 20, () => 0, 0.1, 1),
          12_000,
        ),
      ),
    );
    await page.getByText("IF included: no selectivity").waitFor();
    await page.getByText("own response is in it").waitFor();
    await noOptions(page);
    const long = new Uint8Array(44 + 2 * rate * 1200);
    long.set(wav16(new Float64Array(2), rate).subarray(0, 44));
    new DataView(long.buffer).setUint32(40, long.length - 44, true);
    await take(page, "Test noise through the audio", file("long.wav", long));
    await page.getByText(/^Listening to long\.wav: \d+:\d\d(?:\.\d)? of 20:00/).waitFor();
    await page.getByRole("button", { name: "Stop", exact: true }).click();
    await page.getByText("Stopped.").waitFor();
    await take(page, "Test noise through the audio", file("silent.wav", wav16(new Float64Array(rate), rate)));
    await page.getByText(/expected a sound: is the lead in the right socket|a sound: is the lead in the right socket/).waitFor();
    await page.close();
  });

  it.each([
    [1440, 900],
    [390, 844],
  ])("fits and is accessible at %i px", async (width, height) => {
    for (const what of ["hum", "noise", "crackle", "response"]) {
      const page = await b.open(jobHash("Harbour", "listen", what), { width, height });
      await page.getByRole("button", { name: "Listen first, then take it" }).first().waitFor();
      expect(await noSideways(page)).toBe(true);
      expect(await violations(page)).toEqual([]);
      if (process.env.FETTLE_PICTURES)
        await page.screenshot({ path: join(process.env.FETTLE_PICTURES, `${what}-${width}.png`), fullPage: true });
      await page.close();
    }
  });
  it("no page met an error or asked anything elsewhere", () => expect(b.complaints).toEqual([]));
});

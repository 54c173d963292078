/** Live sound in a real browser, its input fed from a file: the level, the note, what is kept, and an input that vanishes. */
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

const folder = mkdtempSync(join(tmpdir(), "listen-"));
const rate = 48_000;
/** A tone of 1000.25 Hz that steps by 6 dB every four seconds: half as loud from the second on, and so on; the browser plays it in a ring. */
const steps = made(rate, 16, (t) => (t % 8 < 4 ? 0.2 : 0.1) * Math.sin(tau * 1000.25 * t), 0.0005);
let b: InBrowser;
beforeAll(async () => {
  if (!executablePath) return;
  const file = join(folder, "steps.wav");
  writeFileSync(file, wav16(steps, rate));
  b = await inBrowser(benchOfJobs, hearing(file));
});
afterAll(async () => {
  await b?.close();
  rmSync(folder, { recursive: true, force: true });
});
const listening = async (hash: string, size?: { width: number; height: number }): Promise<Page> => {
  const page = await b.open(hash, size);
  await page.getByRole("button", { name: "Listen", exact: true }).click();
  await page.getByText("Level is good").waitFor();
  return page;
};
/** The browser's input, so many times as loud, cut off at full scale as a sound device cuts it, and on the left one of so many sides. */
function led([gain, sides]: readonly [number, number]): void {
  const media = navigator.mediaDevices;
  const open = media.getUserMedia.bind(media);
  media.getUserMedia = async (c) => {
    const context = new AudioContext({ sampleRate: 48_000 });
    const [turned, cut, merged] = [context.createGain(), context.createWaveShaper(), context.createChannelMerger(sides)];
    turned.gain.value = 2 * gain;
    cut.curve = new Float32Array([-1, 0, 1]);
    const out = context.createMediaStreamDestination();
    context
      .createMediaStreamSource(await open(c))
      .connect(turned)
      .connect(cut)
      .connect(merged, 0, 0)
      .connect(out);
    return out.stream;
  };
}
/** Waits until a value of the page is so. */
const until = (page: Page, selector: string, name: string, is: (v: number) => boolean): Promise<number> =>
  expect
    .poll(async () => Number((await page.locator(selector).getAttribute(name)) || Number.NaN))
    .toSatisfy(is)
    .then(async () => Number(await page.locator(selector).getAttribute(name)));

describe.runIf(executablePath)("listening", () => {
  it("warns where the input is chosen, before it is open", async () => {
    const page = await b.open("#/listen");
    await page.getByText("Before you lead the set's sound in").waitFor();
    const text = ((await page.locator("main").textContent()) ?? "").replace(/\s+/g, " ");
    for (const word of [
      "isolating transformer rated for line voltage",
      "it never replaces it",
      "live chassis",
      "is earth",
      "load left on",
      "free of DC",
    ])
      expect(text).toContain(word);
    expect(await violations(page)).toEqual([]);
    await page.close();
  });

  it("peak: the tone's level large, its step of 6 dB as 6 dB, the best held, the browser's processing verified off", async () => {
    const page = await listening("#/listen/peak");
    await page.getByText("Level of the tone at 1000 Hz").waitFor();
    await until(page, ".large .level", "data-level", (v) => Math.abs(v) <= 0.1);
    await page.getByText("At the best").waitFor();
    await until(page, ".large .level", "data-level", (v) => Math.abs(v + 6) <= 0.1);
    await page.getByText(/Past the peak: turn back|Below the best: turn the other way/).waitFor();
    expect(await page.locator(".large .level").textContent()).toMatch(/^−[56]\.\d\s*dB$/);
    await page.getByText("Best −17.0 dB re full scale").waitFor();
    await page.getByText("Echo cancellation, automatic gain and noise suppression are off, as the browser says.").waitFor();
    // the first of the cautions stays in sight
    await page.getByText("isolating transformer rated for line voltage").waitFor();
    await page.getByRole("button", { name: "Begin afresh" }).click();
    await until(page, ".large .level", "data-level", (v) => Math.abs(v) <= 0.1);
    await page.close();
  });

  it("note: the tone's frequency, and its track with the sound kept as a reading that questions take", async () => {
    const page = await listening(jobHash("Harbour", "listen", "note"));
    await until(page, ".large .level", "data-hz", (v) => Math.abs(v - 1000.25) < 0.05);
    await page.getByText("On the tone").waitFor();
    await page.getByText(/^Mean 1000\.\d+\sHz/).waitFor();
    await page.getByLabel("Carrier that the tone is a beat with").fill("10 MHz");
    await page.getByLabel("It is for").selectOption("marker-trim");
    await page.getByRole("button", { name: "Keep as a reading" }).click();
    await page.getByText(/^Kept: the track, as reading r-\w+; the sound itself with it; the marker's beat/).waitFor();
    await page.close();
    const store = await openSqlite(b.store);
    const document = (await store.load("Harbour"))!.document;
    const reading = viewOf(document).readings.find((r) => r.file.name.startsWith("note "))!;
    expect(reading.columns.frequencyHz.length).toBeGreaterThan(1);
    for (const hz of reading.columns.frequencyHz) expect(Math.abs(hz - 1000.25)).toBeLessThan(0.1);
    const files = await store.files("Harbour");
    expect(files.find((f) => f.hash === reading.file.hash)?.media).toBe("audio/wav");
    await store.close();
  });

  it.each(["peak", "note", "hum", "noise", "crackle", "response"])(
    "%s: what to heed stands where the input is chosen; an input that vanishes is told in words, and the page listens again when asked",
    async (what) => {
      const page = await b.open(`#/listen/${what}`);
      await page.getByText("Before you lead the set's sound in").waitFor();
      for (const word of ["isolating transformer rated for line voltage", "live chassis is run from", "is earth", "free of DC"])
        expect(await page.locator("main").textContent()).toContain(word);
      await page.evaluate(() => {
        const media = navigator.mediaDevices;
        const open = media.getUserMedia.bind(media);
        media.getUserMedia = async (c) => {
          const stream = await open(c);
          Object.assign(window, { heardOf: stream });
          return stream;
        };
      });
      await page.getByRole("button", { name: "Listen", exact: true }).click();
      await page.getByText("Level is good").waitFor();
      await page.evaluate(() => {
        const { heardOf } = window as Window & { readonly heardOf?: MediaStream };
        for (const t of heardOf?.getTracks() ?? []) {
          t.stop();
          t.dispatchEvent(new Event("ended"));
        }
      });
      await page.getByText("The input is gone").waitFor();
      await page.getByRole("button", { name: "Stop listening" }).click();
      await page.getByRole("button", { name: "Listen", exact: true }).click();
      await page.getByText("Level is good").waitFor();
      expect(await page.getByText("The input is gone").count()).toBe(0);
      await page.close();
    },
  );

  it.each([
    ["silence", 0, 1, "Nothing comes in"],
    ["a wave that is cut off", 3, 1, "Too loud: the wave is cut off"],
    ["next to nothing", 0.01, 1, "Very quiet: turn the input up"],
    ["sound on one side of two", 1, 2, "the signal is on this side alone"],
  ] as const)("%s is told plainly while it comes in", async (_, gain, sides, says) => {
    const page = await b.open("#/listen/peak");
    await page.getByText("Before you lead the set's sound in").waitFor();
    await page.evaluate(led, [gain, sides] as const);
    await page.getByRole("button", { name: "Listen", exact: true }).click();
    await page.getByText(says).waitFor();
    await page.close();
  });

  it.each([
    [1440, 900],
    [820, 1180],
    [390, 844],
  ])("fits and is accessible at %i px while it listens", async (width, height) => {
    for (const what of ["peak", "note"]) {
      const page = await listening(jobHash("Harbour", "listen", what), { width, height });
      await page.locator(".large .level").filter({ hasText: /\d/ }).waitFor();
      expect(await noSideways(page)).toBe(true);
      expect(await violations(page)).toEqual([]);
      if (process.env.FETTLE_PICTURES)
        await page.screenshot({ path: join(process.env.FETTLE_PICTURES, `${what}-${width}.png`), fullPage: true });
      await page.close();
    }
  });

  it("no page met an error or asked anything elsewhere", () => expect(b.complaints).toEqual([]));
});

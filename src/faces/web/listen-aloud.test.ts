/** The level by ear, in a real browser: a tone whose pitch rises with it, a voice that says it; both counted on their way out. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { made, tau, wav16 } from "../../readings/sound/waves.testdata";
import { executablePath, hearing, type InBrowser, inBrowser } from "./in-browser.testdata";
import { benchOfJobs } from "./page.testdata";

const folder = mkdtempSync(join(tmpdir(), "listen-aloud-"));
const rate = 48_000;
/** A tone that steps by 6 dB every four seconds. */
const steps = made(rate, 16, (t) => (t % 8 < 4 ? 0.2 : 0.1) * Math.sin(tau * 1000 * t), 0.0005);
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
interface Counted {
  readonly spoken: string[];
  readonly pitches: number[];
  started: number;
  stopped: number;
}
type WithCounted = Window & { counted: Counted };
/** What sounds and what is spoken goes by here: a voice of this device, and each oscillator's pitch as it is set. */
function counting(): void {
  const counted: Counted = { spoken: [], pitches: [], started: 0, stopped: 0 };
  Object.assign(window, { counted });
  const voice = { name: "here", lang: "en-US", localService: true, default: true, voiceURI: "here" };
  class Said {
    voice: unknown;
    constructor(readonly text: string) {}
  }
  const synthesis = {
    getVoices: () => [voice],
    speak: (u: Said) => void counted.spoken.push(u.text),
    cancel: () => undefined,
    addEventListener: () => undefined,
    removeEventListener: () => undefined,
  };
  Object.defineProperty(window, "speechSynthesis", { value: synthesis, configurable: true });
  Object.defineProperty(window, "SpeechSynthesisUtterance", { value: Said, configurable: true });
  const make = AudioContext.prototype.createOscillator;
  AudioContext.prototype.createOscillator = function (this: AudioContext) {
    const tone = make.call(this);
    const set = tone.frequency.setTargetAtTime.bind(tone.frequency);
    tone.frequency.setTargetAtTime = (hz: number, at: number, how: number) => {
      counted.pitches.push(hz);
      return set(hz, at, how);
    };
    const [start, stop] = [tone.start.bind(tone), tone.stop.bind(tone)];
    tone.start = () => {
      counted.started++;
      start();
    };
    tone.stop = () => {
      counted.stopped++;
      stop();
    };
    return tone;
  };
}

describe.runIf(executablePath)("a level by ear", () => {
  it("both are off until asked for; the tone falls an octave with 6 dB, the voice says the level where it changed, and both end", async () => {
    const page = await b.open("about:blank");
    await page.addInitScript(counting);
    await page.goto(`${b.url}#/listen/peak`);
    await page.reload();
    const counted = () => page.evaluate(() => (window as unknown as WithCounted).counted);
    await page.getByRole("button", { name: "Listen", exact: true }).click();
    await page.getByText("Level of the tone at 1000 Hz").waitFor();
    expect(await counted()).toEqual({ spoken: [], pitches: [], started: 0, stopped: 0 });
    await page.getByLabel("A tone that rises with the level").check();
    const heard = (hz: number) => async () => (await counted()).pitches.some((f) => Math.abs(f / hz - 1) < 0.03);
    // 880 Hz at the best, and 6 dB below it half of that
    await expect.poll(heard(880)).toBe(true);
    await expect.poll(heard(440)).toBe(true);
    expect((await counted()).started).toBe(1);
    await page.getByLabel("Say the level aloud").check();
    await page.getByText("use an earphone").waitFor();
    await expect.poll(async () => (await counted()).spoken).toContain("best");
    await expect.poll(async () => (await counted()).spoken.some((s) => /^minus (?:6|5\.9|6\.1)$/.test(s))).toBe(true);
    // never the same twice in a row
    const { spoken } = await counted();
    expect(spoken.filter((s, i) => i > 0 && s === spoken[i - 1])).toEqual([]);
    await page.getByLabel("Say the level aloud").uncheck();
    await page.getByLabel("A tone that rises with the level").uncheck();
    await expect.poll(async () => (await counted()).stopped).toBe(1);
    const after = (await counted()).pitches.length;
    await page.waitForTimeout(500);
    expect((await counted()).pitches.length).toBe(after);
    await page.close();
  });
  it("met no error of its own", () => expect(b.complaints).toEqual([]));
});

/** Live listening: processor time of the analysis per second of sound, and the time from a step in the sound to its value on the page, in a real browser fed from a file. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { executablePath, inBrowser } from "../src/faces/web/in-browser.testdata";
import { Live, type LiveFor } from "../src/readings/sound/live";
import { made, tau, wav16 } from "../src/readings/sound/waves.testdata";

const rate = 48_000;
const block = 256;
const seconds = 60;
const tone = (t: number): number => 0.1 * Math.sin(tau * 1000.25 * t);

/** Share of one core that the analysis takes, in blocks as the browser gives them. */
function shareOf(what: LiveFor): number {
  const x = made(rate, seconds, tone, 0.005);
  const live = new Live({ sampleRateHz: rate, for: what, clock: 0, begun: "2026-01-01 00:00:00" });
  const everyBlocks = what.what === "peak" ? 2 : 19;
  const { user, system } = process.cpuUsage();
  for (let at = 0, i = 0; at < x.length; at += block, i++) {
    const part = x.subarray(at, at + block);
    live.push([part, part]);
    if (i % everyBlocks === 0) live.news();
  }
  const now = process.cpuUsage();
  return (now.user - user + now.system - system) / 1e6 / seconds;
}
const noteFor: LiveFor = { what: "note", everyS: 1, range: { fromHz: 20, toHz: 5000 } };
console.log(
  `live, of one core: peak ${(100 * shareOf({ what: "peak", of: "tone" })).toFixed(1)} %, note ${(100 * shareOf(noteFor)).toFixed(1)} %`,
);

/** Times of steps as the browser's capture gives them, and as the page's value passes half of them. */
async function latencies(): Promise<readonly number[]> {
  const folder = mkdtempSync(join(tmpdir(), "ear-live-"));
  const file = join(folder, "steps.wav");
  writeFileSync(
    file,
    wav16(
      made(rate, 8, (t) => (t % 4 < 2 ? 2 : 1) * tone(t)),
      rate,
    ),
  );
  const b = await inBrowser(
    async () => undefined,
    ["--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream", `--use-file-for-fake-audio-capture=${file}`],
  );
  const page = await b.open("#/listen/peak");
  await page.evaluate(() => {
    const media = navigator.mediaDevices;
    const open = media.getUserMedia.bind(media);
    const steps: { at: number; up: boolean }[] = [];
    const shown: { at: number; db: number }[] = [];
    Object.assign(window, { steps, shown });
    media.getUserMedia = async (c) => {
      const stream = await open(c);
      // beside the page's own way: each piece as it is captured
      const Makes: unknown = Reflect.get(window, "MediaStreamTrackProcessor");
      if (typeof Makes !== "function") return stream;
      const readable: ReadableStream<AudioData> = Reflect.construct(Makes, [{ track: stream.getAudioTracks()[0].clone() }]).readable;
      void (async () => {
        let last = 0;
        for (const reader = readable.getReader(); ; ) {
          const { value } = await reader.read();
          if (!value) return;
          const arrived = performance.now();
          const x = new Float32Array(value.numberOfFrames);
          value.copyTo(x, { planeIndex: 0, format: "f32-planar" });
          // by milliseconds: the first whose top is half as high again, or a third lower
          const each = Math.round(value.sampleRate / 1000);
          for (let i = 0; i + each <= x.length; i += each) {
            const top = x.subarray(i, i + each).reduce((m, v) => Math.max(m, Math.abs(v)), 0);
            if (last > 0 && (top > 1.5 * last || top < 0.67 * last))
              steps.push({ at: arrived - (1000 * (x.length - i)) / value.sampleRate, up: top > last });
            last = top;
          }
          value.close();
        }
      })();
      return stream;
    };
  });
  await page.getByRole("button", { name: "Listen", exact: true }).click();
  await page.getByText("Level of the tone").waitFor();
  await page.evaluate(() => {
    const shown: unknown = Reflect.get(window, "shown");
    const level = document.querySelector(".large .level");
    if (!level || !Array.isArray(shown)) return;
    new MutationObserver(() => shown.push({ at: performance.now(), db: Number(level.getAttribute("data-level")) })).observe(level, {
      attributes: true,
    });
  });
  await page.waitForTimeout(30_000);
  const got = await page.evaluate(() => ({ steps: Reflect.get(window, "steps"), shown: Reflect.get(window, "shown") }));
  await b.close();
  rmSync(folder, { recursive: true });
  const { steps, shown } = got as { steps: { at: number; up: boolean }[]; shown: { at: number; db: number }[] };
  return steps.flatMap(({ at, up }) => {
    const half = shown.find((s) => s.at > at && s.at < at + 1000 && (up ? s.db > -3 : s.db < -3));
    return half && shown[0].at < at ? [half.at - at] : [];
  });
}
if (!executablePath) console.log("  latency skipped: no Chromium");
else {
  const ms = [...(await latencies())].sort((a, b) => a - b);
  console.log(
    `from a step of 6 dB in the sound to half of it on the page, ${ms.length} steps: median ${ms[ms.length >> 1]?.toFixed(0)} ms, longest ${ms.at(-1)?.toFixed(0)} ms`,
  );
}

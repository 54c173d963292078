/** Live listening: processor time of the analysis per second of sound, and the time from a step in the sound to its value on the page, in a real browser fed from a file. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, readlinkSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { executablePath, inBrowser } from "../src/faces/web/in-browser.testdata";
import { Live, type LiveFor } from "../src/readings/sound/live";
import { made, tau, wav16 } from "../src/readings/sound/waves.testdata";
import { rehearsalLines } from "./rehearse-live";

const rate = 48_000;
const block = 128;
const seconds = 60;
const tone = (t: number): number => 0.1 * Math.sin(tau * 1000.25 * t);

/** Share of one core that the analysis takes, in blocks as the browser gives them. */
function shareOf(what: LiveFor): number {
  const x = made(rate, seconds, tone, 0.005);
  const live = new Live({ sampleRateHz: rate, for: what, clock: 0, begun: "2026-01-01 00:00:00" });
  const everyBlocks = what.what === "peak" ? 2 : 38;
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

interface Shown {
  readonly at: number;
  readonly db: number;
}
interface Latencies {
  /** ms from a step in the sound to half of it: as it is written on the page, and as it is in a picture of the screen */
  readonly written: readonly number[];
  readonly pictured: readonly number[];
  /** how long threads of the browser stood ready without a processor, ms a second, the one that waited longest; undefined where the system doesn't tell */
  readonly waitedMs: number | undefined;
}
/** ms that threads of the browsers here have stood ready without a processor, by thread. */
function waits(): ReadonlyMap<string, number> {
  const of = new Map<string, number>();
  const threads = (pid: string): readonly string[] => {
    try {
      const [, name] = readlinkSync(`/proc/${pid}/exe`).match(/([^/]*)$/) ?? [];
      return name && executablePath?.endsWith(name) ? readdirSync(`/proc/${pid}/task`) : [];
    } catch {
      return [];
    }
  };
  const pids = existsSync("/proc/self/schedstat") ? readdirSync("/proc").filter((p) => /^\d+$/.test(p)) : [];
  for (const pid of pids)
    for (const tid of threads(pid)) {
      try {
        of.set(`${pid}/${tid}`, Number(readFileSync(`/proc/${pid}/task/${tid}/schedstat`, "utf8").split(" ")[1]) / 1e6);
      } catch {
        // it has ended
      }
    }
  return of;
}
const listenMs = 30_000;
/** Times of steps as the browser's capture gives them, and as the page's value passes half of them. */
async function latencies(): Promise<Latencies> {
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
    const written: Shown[] = [];
    const pictured: Shown[] = [];
    Object.assign(window, { steps, written, pictured });
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
    const written: unknown = Reflect.get(window, "written");
    const pictured: unknown = Reflect.get(window, "pictured");
    const level = document.querySelector(".large .level");
    if (!level || !Array.isArray(written) || !Array.isArray(pictured)) return;
    const now = () => ({ at: performance.now(), db: Number(level.getAttribute("data-level")) });
    new MutationObserver(() => written.push(now())).observe(level, { attributes: true });
    // what stands there when a picture is made, told right after it is
    const { port1, port2 } = new MessageChannel();
    let stands = now();
    port1.onmessage = () => void pictured.push({ ...stands, at: performance.now() });
    const look = () => {
      // after whatever the page itself does for this picture
      queueMicrotask(() => {
        stands = now();
        port2.postMessage(0);
      });
      requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  const before = waits();
  await page.waitForTimeout(listenMs);
  const after = waits();
  const got = await page.evaluate(() => ({
    steps: Reflect.get(window, "steps"),
    written: Reflect.get(window, "written"),
    pictured: Reflect.get(window, "pictured"),
  }));
  await b.close();
  rmSync(folder, { recursive: true });
  const { steps, written, pictured } = got as { steps: { at: number; up: boolean }[]; written: Shown[]; pictured: Shown[] };
  const to = (shown: readonly Shown[]) =>
    steps.flatMap(({ at, up }) => {
      const half = shown.find((s) => s.at > at && s.at < at + 1000 && (up ? s.db > -3 : s.db < -3));
      return half && shown[0].at < at ? [half.at - at] : [];
    });
  const waited = [...after].map(([of, ms]) => (ms - (before.get(of) ?? ms)) / (listenMs / 1000));
  return { written: to(written), pictured: to(pictured), waitedMs: waited.length > 0 ? Math.max(...waited) : undefined };
}
const said = (of: readonly number[]): string => {
  const ms = [...of].sort((a, b) => a - b);
  return `${ms.length} steps: median ${ms[ms.length >> 1]?.toFixed(0)} ms, longest ${ms.at(-1)?.toFixed(0)} ms`;
};
if (!executablePath) console.log("  latency and rehearsal skipped: no Chromium");
else {
  const { written, pictured, waitedMs } = await latencies();
  console.log(`from a step of 6 dB in the sound to half of it on the page, ${said(written)}`);
  console.log(`  to the picture of the screen that has it, ${said(pictured)}`);
  console.log(
    waitedMs === undefined
      ? "  this system doesn't tell how long the browser waited for a processor"
      : `  ready, but without a processor: the thread that waited longest ${waitedMs.toFixed(0)} ms a second (on a machine with nothing else to do, hardly any)`,
  );
  for (const l of await rehearsalLines()) console.log(l);
}

/** A rehearsal that plays in a real browser: its audio thread's processor time, and how much of it comes in time where the browser has a quarter of each processor. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmdirSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { join } from "node:path";
import { playedDemo } from "../src/faces/web/chassis.testdata";
import { inBrowser, jobHash } from "../src/faces/web/in-browser.testdata";

const listenMs = 20_000;
const slowed = 4;
/** The system's turns are this long, so that what is slowed waits for hundredths of a second and no longer, as on a slow processor. */
const turnUs = 10_000;

/** All processes begun by this one and by those. */
function begun(): readonly string[] {
  const parents = readdirSync("/proc")
    .filter((p) => /^\d+$/.test(p))
    .flatMap((p) => {
      try {
        const stat = readFileSync(`/proc/${p}/stat`, "utf8");
        return [[p, stat.slice(stat.lastIndexOf(")") + 2).split(" ")[1]] as const];
      } catch {
        return [];
      }
    });
  const under = (of: string): readonly string[] => parents.flatMap(([p, parent]) => (parent === of ? [p, ...under(p)] : []));
  return under(String(process.pid));
}
/** Gives those processes a quarter of each processor; what sets them free again, or undefined where the system doesn't let us. */
function slow(pids: readonly string[]): (() => void) | undefined {
  const first = existsSync("/sys/fs/cgroup/cpu");
  const root = first ? "/sys/fs/cgroup/cpu" : "/sys/fs/cgroup";
  const at = join(root, "rehearsal-slowed");
  const quota = Math.round((turnUs * cpus().length) / slowed);
  const move = (to: string) => {
    for (const p of pids) {
      try {
        writeFileSync(join(to, "cgroup.procs"), p);
      } catch (e) {
        // one that has ended needs no moving
        if (existsSync(`/proc/${p}`)) throw e;
      }
    }
  };
  const free = () => {
    move(root);
    rmdirSync(at);
  };
  try {
    mkdirSync(at, { recursive: true });
    if (first) {
      writeFileSync(join(at, "cpu.cfs_period_us"), String(turnUs));
      writeFileSync(join(at, "cpu.cfs_quota_us"), String(quota));
      // the audio thread goes before the others, and has a share of its own where the system keeps one
      if (existsSync(join(at, "cpu.rt_runtime_us"))) {
        writeFileSync(join(at, "cpu.rt_period_us"), String(turnUs));
        writeFileSync(join(at, "cpu.rt_runtime_us"), String(turnUs / slowed));
      }
    } else writeFileSync(join(at, "cpu.max"), `${quota} ${turnUs}`);
    move(at);
  } catch {
    if (existsSync(at)) free();
    return undefined;
  }
  return free;
}
/** Seconds that the audio threads of those processes have had a processor. */
const audioS = (pids: readonly string[]): number =>
  pids
    .flatMap((p) => (existsSync(`/proc/${p}/task`) ? readdirSync(`/proc/${p}/task`).map((t) => `/proc/${p}/task/${t}`) : []))
    .filter((t) => /AudioW(?!orkerThre)/.test(readFileSync(join(t, "comm"), "utf8")))
    .reduce((s, t) => s + Number(readFileSync(join(t, "schedstat"), "utf8").split(" ")[0]) / 1e9, 0);

/** What is measured, a sentence a line. */
export async function rehearsalLines(): Promise<readonly string[]> {
  const b = await inBrowser(playedDemo, ["--autoplay-policy=no-user-gesture-required"]);
  const page = await b.open("");
  await page.addInitScript(() => {
    const Made = AudioContext;
    Reflect.set(
      window,
      "AudioContext",
      class extends Made {
        constructor(o?: AudioContextOptions) {
          super(o);
          Reflect.set(window, "heard", this);
        }
      },
    );
  });
  await page.goto(`${b.url}${jobHash("Club set", "sheet", "q-multiplier")}`);
  await page.reload();
  await page.getByRole("link", { name: "Hear it first" }).click();
  await page.getByRole("button", { name: "Play" }).click();
  await page.waitForTimeout(3000);
  const pids = begun();
  const over = async () => {
    const now = () =>
      page.evaluate(() => ({ at: performance.now() / 1000, played: (Reflect.get(window, "heard") as AudioContext).currentTime }));
    const [from, had] = [await now(), audioS(pids)];
    await page.waitForTimeout(listenMs);
    const to = await now();
    const played = to.played - from.played;
    return { inTime: played / (to.at - from.at), core: (audioS(pids) - had) / played };
  };
  const said = ({ inTime, core }: { readonly inTime: number; readonly core: number }): string =>
    `${(100 * inTime).toFixed(1)} % of its sound comes in time; the audio thread takes ${(1000 * core).toFixed(1)} ms of a processor for a second of sound`;
  const lines = [`a rehearsal as it plays: ${said(await over())}`];
  const free = slow(pids);
  if (free) {
    lines.push(`  the whole browser with a quarter of each processor, as on a phone: ${said(await over())}`);
    free();
  } else lines.push("  not measured as on a phone: this system doesn't let its processors be shared out");
  await b.close();
  return lines;
}

/**
 * The ear played as a person would on one job, in a real browser fed with sounds by scientific Python, and by the command line: a can peaked, a marker trimmed,
 * a warm-up logged, a Q multiplier rehearsed beside another station, a sweep by generator and meter. Skipped by name where Python has no SciPy.
 */
import { spawn, spawnSync } from "node:child_process";
import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { startSimulatedBench } from "../../instruments/simulated-bench";
import { viewOf } from "../../job/view";
import { openSqlite } from "../../store/sqlite";
import { playedDemo } from "./chassis.testdata";
import { executablePath, hearing, type InBrowser, inBrowser, jobHash, noSideways, violations } from "./in-browser.testdata";

const folder = mkdtempSync(join(tmpdir(), "ear-whole-"));
const input = join(folder, "input.wav");
const built = join(import.meta.dirname, "../../../dist/fettle.mjs");
const made = spawnSync("python3", [join(import.meta.dirname, "ear-whole.testscript.py"), folder], { encoding: "utf8" });
const here = executablePath !== undefined && made.status === 0;
if (made.status !== 0) console.info("skipped: the ear by sounds of scientific Python (no python3 with SciPy)");
interface Truth {
  readonly can: { readonly depth_db: number };
  readonly trim: Readonly<Record<"found" | "halfway" | "left", number>>;
  readonly warm: { readonly slow_s: number; readonly slow_hz: number; readonly fast_s: number };
}
const truth = (): Truth => JSON.parse(made.stdout) as Truth;
const name = "Club set";
let b: InBrowser;
beforeAll(async () => {
  if (!here) return;
  copyFileSync(join(folder, "can.wav"), input);
  b = await inBrowser(playedDemo, hearing(input));
});
afterAll(async () => {
  await b?.close();
  rmSync(folder, { recursive: true, force: true });
});
/** The command line as it is built, on the page's own store. */
function run(...argv: string[]): string {
  const r = spawnSync(process.execPath, [built, ...argv], {
    encoding: "utf8",
    cwd: folder,
    env: { ...process.env, FETTLE_STORE: b.store },
  });
  expect([r.status, r.stderr.includes("expected")], r.stderr).toEqual([0, false]);
  return r.stdout.replace(/\s+/g, " ");
}
/** A sound comes to the browser's input: it is read anew each time that the input is opened. */
async function listening(what: string, sound: string): Promise<Page> {
  copyFileSync(join(folder, sound), input);
  const page = await b.open(jobHash(name, "listen", what));
  await page.getByRole("button", { name: "Listen", exact: true }).click();
  return page;
}
async function job() {
  const store = await openSqlite(b.store);
  const view = viewOf((await store.load(name))!.document);
  const sounds = new Set((await store.files(name)).map((f) => f.hash));
  await store.close();
  return { view, sounds };
}
async function looked(page: Page, as: string): Promise<void> {
  expect(await noSideways(page)).toBe(true);
  expect(await violations(page)).toEqual([]);
  if (process.env.FETTLE_PICTURES) await page.screenshot({ path: join(process.env.FETTLE_PICTURES, `whole-${as}.png`), fullPage: true });
}

describe.runIf(here)("the ear on one job", () => {
  it("peaks a can: climbing, past the peak, back at the best; kept with how it was left and the sound", async () => {
    const page = await listening("peak", "can.wav");
    await page.getByText("Climbing").waitFor();
    await page.getByText("Past the peak: turn back").waitFor();
    await page.getByText("At the best").waitFor();
    await looked(page, "peak");
    await page.getByRole("button", { name: "Keep as a reading" }).click();
    await page.getByText(/^Kept: the level, as reading r-\w+/).waitFor();
    await page.close();
    const { view, sounds } = await job();
    const kept = view.readings.at(-1);
    expect(kept && sounds.has(kept.file.hash)).toBe(true);
    expect(Math.abs(kept?.figures.find((f) => f.name === "left against the best")?.quantity?.value ?? Number.NaN)).toBeLessThan(0.3);
    const levels = kept?.columns.levelDbfs ?? [];
    expect(Math.max(...levels) - Math.min(...levels)).toBeGreaterThan(truth().can.depth_db - 0.5);
  });

  it.each(["found", "halfway", "left"] as const)(
    "trims the marker, as %s: the beat in ppm with its interval, by note or by swell",
    async (at) => {
      const page = await listening("note", `${at}.wav`);
      await page.getByLabel("Carrier that the tone is a beat with").fill("10 MHz");
      const ppm = truth().trim[at] / 10;
      const said = page.getByText(/ppm \([\d.]+ to [\d.]+\) of the carrier/);
      await said.first().waitFor();
      const within = async (): Promise<boolean> => {
        const [, low, high] = /ppm \(([\d.]+) to ([\d.]+)\)/.exec((await said.first().textContent()) ?? "") ?? [];
        return Number(low) <= ppm && ppm <= Number(high);
      };
      await expect.poll(within).toBe(true);
      await looked(page, `note-${at}`);
      await page.getByLabel("It is for").selectOption("marker-trim");
      await page.getByLabel("Taken").selectOption(at === "left" ? "as-left" : "as-found");
      await page.getByRole("button", { name: "Keep as a reading" }).click();
      await page.getByText(/^Kept: the track, .* the sound itself with it; the marker's beat, [\d.]+\sHz \(/).waitFor();
      await page.getByRole("link", { name: /How far off is the marker crystal/ }).click();
      await page.getByText(/^The crystal is off by/).waitFor();
      await looked(page, `trim-${at}`);
      await page.close();
      const sheet = JSON.parse(run("sheet", "marker-trim", name, "--json")) as {
        results: { crystalError: { low: number; high: number } };
      };
      const { low, high } = sheet.results.crystalError;
      // which way is not said, so the size alone counts; as left it is known to be within 1 ppm
      expect([low * 1e6 <= ppm, high * 1e6 >= ppm]).toEqual([true, true]);
      if (at === "left") expect(high).toBeLessThan(1e-6);
    },
  );

  it("keeps a warm-up log that is taken for the drift: live for a while, and forty minutes by the command line", async () => {
    const page = await listening("note", "evening.wav");
    await page.getByText("On the tone").waitFor();
    await page.getByLabel("Carrier that the tone is a beat with").fill("7.1 MHz");
    await page.getByLabel("It is for").selectOption("drift");
    await page.getByLabel("The set listens on the").selectOption("upper");
    await page.getByText(/^Mean /).waitFor();
    await page.getByRole("button", { name: "Keep as a reading" }).click();
    await page.getByText(/the drift log/).waitFor();
    await looked(page, "drift");
    await page.close();
    run("note", "warm-up.wav", "--job", name, "--for", "drift", "--carrier", "7.1 MHz", "--sideband", "upper");
    const { results, headline } = JSON.parse(run("sheet", "drift", name, "--json")) as {
      headline: string;
      results: Record<"slow" | "fast", { low: number; high: number }>;
    };
    const { slow_s, fast_s } = truth().warm;
    // the log's own law, to the 1 s that it is told to
    for (const [told, s] of [
      [results.slow, slow_s],
      [results.fast, fast_s],
    ] as const)
      expect([told.low - 1 < s, told.high + 1 > s]).toEqual([true, true]);
    expect(headline).toMatch(/from the log's beginning on|ready to use after/);
  });

  it("rehearses a Q multiplier on an AM station beside another: both sides play, and the other station is seen to go down", async () => {
    const page = await b.open(jobHash(name, "hear", "q-multiplier"));
    await page.getByLabel("Neighbours: how far off, how strong").fill("5 kHz, 0 dB");
    await page.getByText("Ready.").waitFor();
    const row = page.locator("tr", { hasText: "another station 5000" });
    await row.waitFor();
    const [is, would] = (await row.locator("td").allTextContents()).map(Number.parseFloat);
    expect(would).toBeGreaterThan(is);
    await page.getByRole("button", { name: "Play" }).click();
    await page.getByRole("button", { name: "as it would be" }).click();
    await page.getByRole("button", { name: "Stop", exact: true }).waitFor();
    await looked(page, "hear");
    await page.close();
    expect(run("rehearse", "q-multiplier", name, "--neighbour", "5 kHz, 0 dB", "-o", "club.wav")).toContain(`another station 5000 Hz off`);
  });

  it("sweeps by generator and meter: a reading without a figure typed, its peak where the invented strip has it, the output off after", async () => {
    const bench = await startSimulatedBench({});
    const { generator, voltmeter } = bench.at;
    const how = "--from 455kHz --to 475kHz --points 21 --level -60dBm --avc off --settle 0.03s".split(" ");
    // the command runs beside the bench, which answers from this process
    const argv = [built, "sweep", generator, "--meter", voltmeter, ...how, "-o", "strip.csv", "--job", name, "--output-on"];
    const said: string[] = [];
    const code = await new Promise((done) => {
      const p = spawn(process.execPath, argv, { cwd: folder, env: { ...process.env, FETTLE_STORE: b.store } });
      p.stdout.on("data", (d) => said.push(String(d)));
      p.on("exit", done);
    });
    await bench.close();
    expect([code, bench.bench.isOn]).toEqual([0, false]);
    const peak = Number(/peak frequency\s+([\d.]+)\skHz/.exec(said.join(""))?.[1]) * 1e3;
    expect(Math.abs(peak - bench.bench.peakHz)).toBeLessThan(1000);
    expect((await job()).view.readings.at(-1)?.as).toBe("if-sweep");
    const page = await b.open(jobHash(name, "readings"));
    await page.getByText("strip.csv").first().waitFor();
    await looked(page, "readings");
    await page.close();
  });
  it("no page met an error or asked anything elsewhere", () => expect(b.complaints).toEqual([]));
});

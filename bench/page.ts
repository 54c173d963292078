/** The page's own timings, in a headless Chromium against the real server and store. Skipped by name where Chromium or the built page is absent. */
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { demoSet } from "../src/desk/demo";
import { executablePath } from "../src/faces/web/chromium.testdata";
import { benchOfJobs } from "../src/faces/web/page.testdata";
import { tableReading } from "../src/job/many-readings.testdata";
import { openSqlite } from "../src/store/sqlite";
import { askedByTap, dragged, goneTo, Hand, type Opened } from "./page-measures";

const readingsCount = 5000;
const times = 5;
const desk = { width: 1440, height: 900 };
const phone = { width: 390, height: 844 };
const sortedOf = (ms: readonly number[]): number[] => [...ms].sort((a, b) => a - b);
const median = (ms: readonly number[]): number => sortedOf(ms)[ms.length >> 1];
const at95 = (ms: readonly number[]): number => sortedOf(ms)[Math.floor(ms.length * 0.95)];
const say = (ms: number): string => `${ms.toFixed(0)} ms`;

async function fill(path: string): Promise<void> {
  const store = await openSqlite(path);
  await benchOfJobs(store);
  const created = "2026-02-01T00:00:00.000Z";
  const entries = Array.from({ length: readingsCount }, (_, i) => tableReading(i, created));
  await store.create({ id: "l", name: "Long", created, set: demoSet(), entries });
  await store.close();
}

/** A page of a browser that has kept nothing. */
async function opened(browser: Browser, size: typeof desk, slowed = 1): Promise<Opened> {
  const context = await browser.newContext({ viewport: size });
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  const cdp = await context.newCDPSession(page);
  if (slowed > 1) await cdp.send("Emulation.setCPUThrottlingRate", { rate: slowed });
  return { page, cdp };
}
/** Does something on pages that have kept nothing, several times. */
async function afresh<T>(browser: Browser, run: (o: Opened) => Promise<T>): Promise<T[]> {
  const out: T[] = [];
  for (let i = 0; i < times; i++) {
    const o = await opened(browser, desk);
    out.push(await run(o));
    await o.page.context().close();
  }
  return out;
}

const firstPaint = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      new Promise<number>((done) => {
        new PerformanceObserver((list) => {
          const first = list.getEntriesByName("first-contentful-paint").at(0);
          if (first) done(first.startTime);
        }).observe({ type: "paint", buffered: true });
      }),
  );
async function loading(browser: Browser, url: string): Promise<string[]> {
  const seen = await afresh(browser, async ({ page }) => {
    const from = performance.now();
    await page.goto(`${url}#/job/Harbour`);
    await page.locator(".tag").first().waitFor();
    return { set: performance.now() - from, paint: await firstPaint(page) };
  });
  return [
    `  nothing kept: first content after ${say(median(seen.map((s) => s.paint)))}, the set whole after ${say(median(seen.map((s) => s.set)))} (wanted: content within 1000 ms)`,
  ];
}

const questions = ["cable-load", "b-plus", "q-multiplier"] as const;
async function asking(browser: Browser, url: string): Promise<string[]> {
  const lines: string[] = [];
  for (const q of questions)
    for (const [how, restMs] of [
      ["tapped as soon as its link stands", 0],
      ["tapped after a second's reading", 1000],
    ] as const) {
      const seen = await afresh(browser, async ({ page }) => {
        await page.goto(`${url}#/job/Harbour/find`);
        await page.locator(`a[href="#/job/Harbour/sheet/${q}"]`).first().waitFor();
        await page.waitForTimeout(restMs);
        return askedByTap(page, `#/job/Harbour/sheet/${q}`);
      });
      lines.push(
        `  ${q}, asked for the first time, ${how}: first answer ${say(median(seen.map((s) => s.first)))} after the tap, the full one ${say(median(seen.map((s) => s.full)))} (wanted: 300 and 1000 ms)`,
      );
    }
  return lines;
}

async function turning(browser: Browser, url: string): Promise<string[]> {
  const lines: string[] = [];
  for (const [who, size, slowed, wanted] of [
    ["desk", desk, 1, 33],
    ["phone, 4 times slowed", phone, 4, 50],
  ] as const)
    for (const q of questions) {
      const o = await opened(browser, size, slowed);
      await o.page.goto(`${url}#/job/Harbour/sheet/${q}`);
      await o.page.locator("main.sheet[aria-busy=false] .pictures figure.plot").first().waitFor({ timeout: 60_000 });
      const { ms, missed, spent } = await dragged(o);
      const [all, scripts, layout] = spent.map((v) => v.toFixed(1));
      lines.push(
        `  ${q}, ${who}: a slider's move to its picture drawn anew: median ${say(median(ms))}, 95th percentile ${say(at95(ms))} (wanted: ${wanted} ms)${missed > 0 ? `, ${missed} moves without one` : ""}; the page's own processor time a move ${all} ms (scripts ${scripts}, layout ${layout})`,
      );
      await o.page.context().close();
    }
  return lines;
}

/** From the list of jobs to the set, and from there to its readings; a person looks at the list for so long first. */
async function openedLong(browser: Browser, url: string, restMs: number): Promise<{ readonly set: number; readonly list: number }> {
  const { page } = await opened(browser, desk);
  // the parts of both pages are there: what is timed is the job
  await page.goto(`${url}#/job/Harbour/readings`);
  await page.locator("#kept").waitFor();
  await goneTo(page, "#/job/Harbour", ".tag");
  await goneTo(page, "#/", ".joblist li");
  await page.waitForTimeout(restMs);
  const set = await goneTo(page, "#/job/Long", ".tag");
  const list = await goneTo(page, "#/job/Long/readings", "#kept details");
  await page.context().close();
  return { set, list };
}
async function longJob(browser: Browser, url: string): Promise<string[]> {
  const first = await openedLong(browser, url, 0);
  const seen: { readonly set: number; readonly list: number }[] = [];
  for (let i = 0; i < times; i++) seen.push(await openedLong(browser, url, 1000));
  const [set, list] = [median(seen.map((s) => s.set)), median(seen.map((s) => s.list))];
  return [
    `  a job with ${readingsCount.toLocaleString("en")} readings, after a second's look at the list of jobs: its set after ${say(set)}, from there its readings after ${say(list)} (wanted: 150 ms); at once, as the first after the server's start, its set after ${say(first.set)}`,
  ];
}

const nextCard = "main a[href*='/records/']";
const field = "main input:not([type=search]):not([type=checkbox])";
const revision = (page: Page): Promise<number> => page.evaluate(async () => (await (await fetch("api/jobs/Harbour")).json()).revision);
async function taps(browser: Browser, url: string): Promise<string[]> {
  const from = async (): Promise<{ readonly hand: Hand; readonly page: Page }> => {
    const { page } = await opened(browser, desk);
    await page.goto(`${url}#/job/Harbour`);
    await page.locator(".tag").first().waitFor();
    return { hand: new Hand(page), page };
  };
  const next = await from();
  await next.hand.tap(nextCard);
  await next.hand.seen(field);
  const read = await from();
  await read.hand.tap(nextCard);
  await read.hand.seen(field);
  const before = await revision(read.page);
  await read.hand.tap(field);
  await read.page.keyboard.type("1");
  await read.hand.press("Enter");
  const kept = await read.page
    .waitForFunction(async (was) => (await (await fetch("api/jobs/Harbour")).json()).revision > was, before)
    .then(
      () => "",
      () => ", NOT kept by them",
    );
  const ask = await from();
  await ask.hand.tap("a[href$='/find']");
  await ask.hand.tap("a[href$='/sheet/b-plus']");
  await ask.hand.seen("main.sheet .headline");
  return [
    `  taps from the set: the next step's card ${next.hand.taps} (wanted: 1), a question ${ask.hand.taps} (wanted: 2), a reading typed ${read.hand.taps}${kept} (wanted: 3)`,
  ];
}

/** Lines of the page's timings; what could not be measured is said in its place. */
export async function pageLines(): Promise<readonly string[]> {
  if (!executablePath || !existsSync(join("dist", "page", "page.js"))) return ["  skipped: Chromium or the built page is not here"];
  const folder = mkdtempSync(join(tmpdir(), "bench-page-"));
  const path = join(folder, "jobs.db");
  await fill(path);
  const server = spawn(process.execPath, [join("dist", "fettle.mjs"), "open", "--no-browser", "--port", "0"], {
    env: { ...process.env, FETTLE_STORE: path },
  });
  const url = await new Promise<string>((done, fail) => {
    server.on("exit", (code) => fail(new Error(`the server ended with ${code}`)));
    server.stdout.on("data", (d) => {
      const m = /http:\S+/.exec(String(d));
      if (m) done(m[0]);
    });
  });
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
  const lines: string[] = [];
  try {
    for (const part of [loading, asking, turning, longJob, taps])
      lines.push(...(await part(browser, url).catch((e: Error) => [`  ${part.name}: not measured, ${e.message.split("\n")[0]}`])));
    return lines;
  } finally {
    await browser.close();
    server.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The page's own timings, in a headless Chromium against the real server and store. Skipped by name where Chromium or the built page is absent. */
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { type Browser, chromium } from "playwright-core";
import { demoSet } from "../src/desk/demo";
import type { Entry } from "../src/job/document";
import { openSqlite } from "../src/store/sqlite";

const executablePath = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find((p) => existsSync(p));
const at95 = (ms: readonly number[]): string => {
  const sorted = [...ms].sort((a, b) => a - b);
  return `median ${sorted[sorted.length >> 1].toFixed(0)} ms, 95th percentile ${sorted[Math.floor(sorted.length * 0.95)].toFixed(0)} ms`;
};
const kilobytes = (file: string): string => `${(gzipSync(readFileSync(join("dist", "page", file))).length / 1e3).toFixed(0)} kB`;
const jobsCount = 10_000;
const readingsCount = 5000;

async function fill(path: string): Promise<void> {
  const store = await openSqlite(path);
  const set = demoSet();
  const created = "2026-02-01T00:00:00.000Z";
  await store.create({ id: "h", name: "Harbour", created, set, entries: [] });
  const reading = (i: number): Entry => ({
    id: `e${i}`,
    at: created,
    who: "bench",
    kind: "reading",
    reading: {
      id: `r${i}`,
      as: "table",
      state: i % 2 ? "as-left" : "as-found",
      step: "10",
      stage: "mixer",
      instrument: "",
      thermal: "warm",
      file: { name: `chart-${i}.csv`, hash: "" },
      columns: { volts: [i, i + 1, i + 2] },
      figures: [{ name: "rows", text: "3" }],
      warnings: [],
    },
  });
  await store.create({ id: "l", name: "Long", created, set, entries: Array.from({ length: readingsCount }, (_, i) => reading(i)) });
  for (let i = 0; i < jobsCount - 2; i++) await store.create({ id: `j${i}`, name: `Job ${i}`, created, set, entries: [] });
  await store.close();
}

async function measure(browser: Browser, url: string): Promise<string[]> {
  const lines: string[] = [];
  const page = await browser.newPage({ viewport: { width: 1400, height: 1000 } });
  const loads: number[] = [];
  for (let i = 0; i < 5; i++) {
    const t = performance.now();
    await page.goto(`${url}#/job/Harbour`);
    await page.locator(".tag").first().waitFor();
    loads.push(performance.now() - t);
    await page.goto("about:blank");
  }
  lines.push(`  first load: script ${kilobytes("page.js")} and worker ${kilobytes("worker.js")} compressed; usable after ${at95(loads)}`);
  for (const [sheet, input] of [
    ["cable-load", "cableLength"],
    ["q-multiplier", "regeneration"],
  ]) {
    await page.goto(`${url}#/job/Harbour/sheet/${sheet}`);
    await page.locator(".figures tbody tr").first().waitFor();
    await page.locator(".working").waitFor({ state: "detached" });
    const slider = page.locator(`.knob:has(#in-${input}) input[type=range]`);
    await slider.scrollIntoViewIfNeeded();
    const ms = await slider.evaluate(async (el: HTMLInputElement) => {
      const out: number[] = [];
      const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")?.set;
      el.dispatchEvent(new PointerEvent("pointerdown", { bubbles: true }));
      for (let i = 0; i < 60; i++) {
        await new Promise((r) => setTimeout(r, 90));
        const drawn = new Promise<number>((done) => {
          const seen = new MutationObserver(() => {
            seen.disconnect();
            requestAnimationFrame(() => done(performance.now()));
          });
          seen.observe(document.querySelector(".plot > div") as Element, { childList: true, subtree: true });
        });
        const t = performance.now();
        // downwards only: a regeneration over 1 is refused, and nothing would be drawn
        set?.call(el, String(-1 - (i % 20)));
        el.dispatchEvent(new Event("input", { bubbles: true }));
        out.push((await drawn) - t);
      }
      el.dispatchEvent(new PointerEvent("pointerup", { bubbles: true }));
      return out.slice(5);
    });
    lines.push(`  ${sheet}: a slider's move to the redrawn curve with its band: ${at95(ms)}`);
  }
  await page.goto("about:blank");
  const opens: number[] = [];
  const filters: number[] = [];
  for (let i = 0; i < 8; i++) {
    await page.goto(`${url}#/describe`);
    await page.locator("h1").first().waitFor();
    opens.push(
      await page.evaluate(async () => {
        const t = performance.now();
        location.hash = "#/";
        while (!document.querySelector(".joblist li")) await new Promise((r) => requestAnimationFrame(r));
        return performance.now() - t;
      }),
    );
    filters.push(
      await page.evaluate(async (n) => {
        const el = document.querySelector<HTMLInputElement>("input[type=search]") as HTMLInputElement;
        const t = performance.now();
        Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")?.set?.call(el, `Job ${n}`);
        el.dispatchEvent(new Event("input", { bubbles: true }));
        while (document.querySelector(".joblist li a")?.textContent !== `Job ${n}`) await new Promise((r) => requestAnimationFrame(r));
        return performance.now() - t;
      }, 7123 + i),
    );
    await page.evaluate(() => localStorage.clear());
    await page.goto("about:blank");
  }
  lines.push(`  a list of ${jobsCount.toLocaleString("en")} jobs opens: ${at95(opens)}; filters: ${at95(filters)}`);
  const long: number[] = [];
  for (let i = 0; i < 6; i++) {
    await page.goto(`${url}#/describe`);
    await page.locator("h1").first().waitFor();
    long.push(
      await page.evaluate(async () => {
        const t = performance.now();
        location.hash = "#/job/Long";
        while (!document.querySelector(".tag")) await new Promise((r) => requestAnimationFrame(r));
        return performance.now() - t;
      }),
    );
    await page.goto("about:blank");
  }
  lines.push(`  a job with ${readingsCount.toLocaleString("en")} readings opens: ${at95(long)}`);
  return lines;
}

/** Lines of the page's timings. */
export async function pageLines(): Promise<readonly string[]> {
  if (!executablePath || !existsSync(join("dist", "page", "page.js"))) return ["  skipped: Chromium or the built page is not here"];
  const folder = mkdtempSync(join(tmpdir(), "bench-page-"));
  const path = join(folder, "jobs.db");
  await fill(path);
  const server = spawn(process.execPath, [join("dist", "fettle.mjs"), "open", "--no-browser"], {
    env: { ...process.env, FETTLE_STORE: path },
  });
  const url = await new Promise<string>((done) => {
    server.stdout.on("data", (d) => {
      const m = /http:\S+/.exec(String(d));
      if (m) done(m[0]);
    });
  });
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
  try {
    return await measure(browser, url);
  } finally {
    await browser.close();
    server.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

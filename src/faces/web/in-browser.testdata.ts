/** A real browser on the built page, its own server and store beside it: for tests that do tasks by clicks. Skipped by name where Chromium is not here. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { openSqlite } from "../../store/sqlite";
import type { JobStore } from "../../store/store";
import { executablePath, launched, patient } from "./chromium.testdata";

export { executablePath };

if (!executablePath) console.info("skipped: the page in a browser (no Chromium)");
const built = join(import.meta.dirname, "..", "..", "..", "dist", "fettle.mjs");
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export interface InBrowser {
  readonly folder: string;
  readonly store: string;
  readonly url: string;
  /** opens a place of the page, nothing of an earlier one known to it; `on` is another listener's address */
  readonly open: (hash: string, size?: Size, on?: string) => Promise<Page>;
  /** an empty page of a browser that has kept nothing, the page's own files least of all */
  readonly unused: () => Promise<Page>;
  /** ends the server as a crash would, and starts one on the same port once that is done; its address is another then */
  readonly crash: (meanwhile: () => Promise<void>) => Promise<void>;
  /** errors that any page met by itself, and addresses outside of this machine that any page asked */
  readonly complaints: readonly string[];
  readonly close: () => Promise<void>;
}
interface Size {
  readonly width: number;
  readonly height: number;
}
/** Starts a server of its own on the home that the environment names, at a port, or at a free one. */
export const served = (
  env: Readonly<Record<string, string>>,
  port = "0",
): Promise<{ readonly url: string; readonly process: ChildProcess }> =>
  new Promise((resolve, reject) => {
    const p = spawn(process.execPath, [built, "open", "--no-browser", "--house", "127.0.0.1", "--port", port], {
      env: { ...process.env, ...env },
    });
    p.on("error", reject);
    p.on("exit", (code) => reject(new Error(`the server ended with ${code}: is ${built} built (./fettle --prepare-only)?`)));
    p.stdout?.on("data", (d) => {
      const m = /http:\S+/.exec(String(d));
      if (m) resolve({ url: m[0], process: p });
    });
  });

/** Switches of a browser whose sound input plays a WAV file, over and over, and asks nobody. */
export const hearing = (file: string): readonly string[] => [
  "--use-fake-ui-for-media-stream",
  "--use-fake-device-for-media-stream",
  `--use-file-for-fake-audio-capture=${file}`,
  "--autoplay-policy=no-user-gesture-required",
];
/** The browser of all files of a worker, begun by the first that wants one, and ended with the worker: a context has nothing of another. */
let ofWorker: Promise<Browser> | undefined;
const theWorkers = (): Promise<Browser> => {
  ofWorker ??= launched();
  return ofWorker;
};
/** Fills a store, serves it, and opens a browser; `more` are switches of the browser's own, which is then nobody else's. */
export async function inBrowser(fill: (store: JobStore) => Promise<void>, more: readonly string[] = []): Promise<InBrowser> {
  const folder = mkdtempSync(join(tmpdir(), "browser-"));
  const path = join(folder, "jobs.db");
  const store = await openSqlite(path);
  await fill(store);
  await store.close();
  let server = await served({ FETTLE_STORE: path });
  const browser = await (more.length > 0 ? launched(more) : theWorkers());
  const complaints: string[] = [];
  const inContexts = contexts(browser);
  const watched = async (page: Page, viewport: Size): Promise<Page> => {
    await page.setViewportSize(viewport);
    patient(page);
    page.on("pageerror", (e) => complaints.push(e.message));
    page.on("request", (r) => {
      if (!/^(?:data|blob):/.test(r.url()) && new URL(r.url()).hostname !== "127.0.0.1") complaints.push(r.url());
    });
    return page;
  };
  const wide = { width: 1440, height: 900 };
  return {
    folder,
    store: path,
    get url() {
      return server.url;
    },
    complaints,
    crash: async (meanwhile) => {
      server.process.kill("SIGKILL");
      await meanwhile();
      server = await served({ FETTLE_STORE: path }, new URL(server.url).port);
    },
    open: async (hash, viewport = wide, on = server.url) => {
      const page = await watched(await inContexts.page(new URL(on).origin), viewport);
      await page.goto(`${on}${hash}`);
      return page;
    },
    unused: async () => watched(await inContexts.unused(), wide),
    close: async () => {
      await (more.length > 0 ? browser.close() : inContexts.close());
      server.process.kill("SIGKILL");
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
/**
 * A page by itself takes the context of the one before, emptied: a new one takes longer to begin than most pages to draw. Beside another page that is
 * still open it gets one of its own.
 */
function contexts(browser: Browser) {
  let kept: BrowserContext | undefined;
  let isTaken = false;
  const own: Page[] = [];
  const unused = async (): Promise<Page> => {
    const page = await browser.newPage();
    own.push(page);
    return page;
  };
  return {
    unused,
    close: async (): Promise<void> => {
      await kept?.close();
      // the context of such a page goes with it
      await Promise.all(own.map((page) => page.close()));
    },
    page: async (origin: string): Promise<Page> => {
      if (isTaken) return unused();
      isTaken = true;
      kept ??= await browser.newContext();
      const page = await kept.newPage();
      page.on("close", () => {
        isTaken = false;
      });
      const session = await kept.newCDPSession(page);
      await session.send("Storage.clearDataForOrigin", {
        origin,
        storageTypes: "cookies,local_storage,indexeddb,cache_storage,service_workers",
      });
      await session.detach();
      return page;
    },
  };
}
export const jobHash = (name: string, ...rest: string[]): string => `#/${["job", name, ...rest].map(encodeURIComponent).join("/")}`;
export const noSideways = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth + 1);
/** Rules of axe-core that a page breaks; the same page in another light or width breaks those of how it is drawn alone. */
export async function violations(page: Page, of: "all" | "drawn" = "all"): Promise<readonly string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe);
  return page.evaluate(
    async (rules) => {
      const w = window as Window & {
        readonly axe?: {
          run: (options: object) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
        };
      };
      const r = await w.axe?.run({
        ...(rules.length > 0 ? { runOnly: rules } : {}),
        resultTypes: ["violations"],
        selectors: false,
        iframes: false,
      });
      return (r?.violations ?? [{ id: "axe did not run", nodes: [] }]).map((v) => `${v.id}: ${v.nodes[0]?.html.slice(0, 160)}`);
    },
    of === "all" ? [] : ["color-contrast", "link-in-text-block", "scrollable-region-focusable"],
  );
}

/** A shop as it is really served: over TLS, by the command line's own program, in a real browser. Skipped by name where Chromium is not here. */
import { execFileSync, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { request as plainRequest } from "node:http";
import { request } from "node:https";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { executablePath, launched, patient } from "../../web/chromium.testdata";
import { noSideways, violations } from "../../web/in-browser.testdata";

const root = join(import.meta.dirname, "..", "..", "..", "..");
const folder = mkdtempSync(join(tmpdir(), "served-"));
const [crt, key] = [join(folder, "shop.crt"), join(folder, "shop.key")];
const env = { ...process.env, FETTLE_STORE: join(folder, "jobs.db"), FETTLE_DATABASE_URL: "", FETTLE_WHO: "t" };
const fettle = (...argv: readonly string[]) => spawn(process.execPath, [join(root, "dist", "fettle.mjs"), ...argv], { env });
const freePort = (): Promise<number> =>
  new Promise((done) => {
    const s = createServer().listen(0, "127.0.0.1", () => {
      const { port } = s.address() as { port: number };
      s.close(() => done(port));
    });
  });
let [out, log, url, metricsPort] = ["", "", "", 0];
let server: ReturnType<typeof fettle>;
let browser: Browser | undefined;
beforeAll(async () => {
  const words = "req -new -x509 -days 30 -nodes -subj /CN=fettle -addext subjectAltName=IP:127.0.0.1";
  execFileSync("openssl", [...words.split(" "), "-out", crt, "-keyout", key], { stdio: "ignore" });
  metricsPort = await freePort();
  server = fettle("serve", "--port", "0", "--certificate", crt, "--key", key, "--metrics", String(metricsPort));
  server.stderr.on("data", (d) => {
    log += d;
  });
  await new Promise<void>((done, failed) => {
    server.on("exit", () => failed(new Error(`${out}${log}`)));
    server.stdout.on("data", (d) => {
      out += d;
      if (out.includes("only this once")) done();
    });
  });
  url = /https:\S+/.exec(out)?.[0] ?? "";
  if (executablePath) browser = await launched();
});
afterAll(async () => {
  await browser?.close();
  server.kill("SIGKILL");
  rmSync(folder, { recursive: true, force: true });
});
const get = (address: string, more: object = {}): Promise<{ readonly status: number; readonly text: string; readonly type: string }> =>
  new Promise((done, failed) => {
    const r = (address.startsWith("https:") ? request : plainRequest)(address, { rejectUnauthorized: false, ...more }, (a) => {
      let text = "";
      a.on("data", (d) => {
        text += d;
      });
      a.on("end", () => done({ status: a.statusCode ?? 0, text, type: a.headers["content-type"] ?? "" }));
    });
    r.on("error", failed);
    r.end();
  });
const password = "four old brass knobs";

describe("a shop that is served", () => {
  it("refuses to be served in the clear, and opens nothing", async () => {
    const p = fettle("serve", "--host", "0.0.0.0", "--port", "0");
    let said = "";
    p.stderr.on("data", (d) => {
      said += d;
    });
    expect(await new Promise((done) => p.on("exit", done))).toBe(2);
    expect(said).toContain("--certificate");
    expect(said).toContain("Nothing was opened");
  });
  it("speaks TLS alone; tells programs of this machine its counts, and the network that it is well", async () => {
    await expect(get(url.replace("https:", "http:"))).rejects.toThrow();
    expect(await get(`${url}health`)).toMatchObject({ status: 200, text: '{"status":"ok"}' });
    expect((await get(`${url}metrics`)).status).toBe(401);
    const counts = await get(`http://127.0.0.1:${metricsPort}/metrics`);
    expect([counts.status, counts.type]).toEqual([200, expect.stringContaining("openmetrics-text")]);
    expect(counts.text).toMatch(/fettle_store_up 1\n/);
    expect((await get(`http://127.0.0.1:${metricsPort}/metrics`, { headers: { host: "evil.example" } })).status).toBe(421);
  });
  it.skipIf(!executablePath)(
    "is entered by its first keeper's code, kept on a page, worked in and read by an owner, in the light and in the dark, wide and narrow",
    async () => {
      const opened = async (width: number, colorScheme: "light" | "dark"): Promise<Page> => {
        const context = await browser!.newContext({ viewport: { width, height: 900 }, colorScheme, ignoreHTTPSErrors: true });
        const page = await context.newPage();
        patient(page);
        return page;
      };
      const fill = async (page: Page, fields: Readonly<Record<string, string>>, button: string) => {
        const form = page.locator("form").filter({ has: page.getByRole("button", { name: button, exact: true }) });
        for (const [name, value] of Object.entries(fields)) await form.locator(`[name=${name}]`).fill(value);
        await form.getByRole("button", { name: button, exact: true }).click();
        await page.waitForLoadState();
      };
      const keeper = await opened(1440, "light");
      await keeper.goto(url);
      expect(keeper.url()).toBe(`${url}sign-in`);
      await keeper.goto(`${url}password`);
      const code = /(\w{5}-){4}\w{5}/.exec(out)?.[0] ?? "";
      await fill(keeper, { code, name: "Ann", password }, "Set it");
      await fill(keeper, { name: "Ann", password }, "Sign in");
      await keeper.waitForURL(url);
      await keeper.getByRole("link", { name: "Ann" }).waitFor();
      const made = await keeper.evaluate(async () => {
        const init = { method: "POST", headers: { "x-fettle": "page", "content-type": "application/json" } };
        return (await fetch("api/jobs", { ...init, body: JSON.stringify({ name: "Mill", pattern: "nine-tube-bandspread" }) })).status;
      });
      expect(made).toBe(200);
      await keeper.goto(`${url}people`);
      await fill(keeper, { job: "Mill", days: "7" }, "Make a link");
      const [link] = /https:[\w.:/]+\/view\/[\w-]{43}/.exec((await keeper.locator("main").textContent()) ?? "") ?? [""];
      for (const [width, light] of [
        [1440, "light"],
        [390, "light"],
        [390, "dark"],
      ] as const) {
        const page = await opened(width, light);
        const held = async (what: string) => {
          expect(await violations(page), what).toEqual([]);
          expect(await noSideways(page), what).toBe(true);
        };
        await page.goto(link);
        await page.getByRole("link", { name: "Read the report (PDF)" }).waitFor();
        await held("the owner's view");
        await page.goto(`${url}sign-in`);
        await held("sign in");
        await fill(page, { name: "Ann", password }, "Sign in");
        await page.waitForURL(url);
        for (const path of ["account", "people"]) {
          await page.goto(`${url}${path}`);
          await held(path);
        }
        await page.context().close();
      }
      await keeper.goto(`${url}account`);
      await keeper.getByRole("button", { name: "Sign out", exact: true }).click();
      await keeper.waitForURL(`${url}sign-in`);
      for (const secret of [password, code, link.split("/").at(-1) ?? ""]) expect(log).not.toContain(secret);
      expect(
        log
          .split("\n")
          .filter(Boolean)
          .every((l) => typeof JSON.parse(l).event === "string"),
      ).toBe(true);
    },
  );
});

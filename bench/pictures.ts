/** The pictures of the README, taken anew of the demo: `npm run pictures`. Wants Chromium and pdftoppm. */
import { execFileSync, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { executablePath } from "../src/faces/web/chromium.testdata";

const folder = mkdtempSync(join(tmpdir(), "pictures-"));
const env = { ...process.env, FETTLE_STORE: join(folder, "jobs.db") };
const to = (name: string): string => join("docs", "pictures", name);
if (!executablePath) throw new Error("Chromium is wanted for the page's picture");

/** One page of a PDF as a picture, cut to a part of it in pixels at 80 dots an inch. */
function cut(pdf: string, pageIndex: number, [x, y, width, height]: readonly [number, number, number, number], name: string): void {
  const place = ["-x", x, "-y", y, "-W", width, "-H", height].map(String);
  const page = String(pageIndex);
  execFileSync("pdftoppm", [
    "-png",
    "-r",
    "80",
    "-f",
    page,
    "-l",
    page,
    "-singlefile",
    ...place,
    join(folder, pdf),
    to(name.replace(".png", "")),
  ]);
}
/** The first page of a PDF whose text has these words. */
function pageWith(pdf: string, words: string): number {
  const text = execFileSync("pdftotext", ["-layout", join(folder, pdf), "-"], { encoding: "utf8" });
  return text.split("\f").findIndex((p) => p.includes(words)) + 1;
}

execFileSync(process.execPath, ["dist/fettle.mjs", "demo", "--folder", folder], { env, stdio: "ignore" });
cut("report.pdf", pageWith("report.pdf", "The strip with a cable on its first plate") || 1, [0, 20, 662, 640], "report.png");
cut("converter-card.pdf", pageWith("converter-card.pdf", "The whole plan behind") || 1, [0, 20, 662, 640], "converter.png");
cut("dial-scale.pdf", 1, [0, 0, 662, 936], "dial-scale.png");

const server = spawn(process.execPath, ["dist/fettle.mjs", "open", "--no-browser", "--port", "0"], { env });
const url = await new Promise<string>((resolve) =>
  server.stdout.on("data", (d) => {
    const m = /http:\S+/.exec(String(d));
    if (m) resolve(m[0]);
  }),
);
const browser = await chromium.launch({ executablePath });
try {
  const page = await browser.newPage({ viewport: { width: 1400, height: 1000 } });
  await page.goto(`${url}#/job/${encodeURIComponent("Harbour club set")}`);
  await page.locator("#next h3").first().waitFor();
  await page.screenshot({ path: to("page.png") });
} finally {
  await browser.close();
  server.kill();
  rmSync(folder, { recursive: true, force: true });
}

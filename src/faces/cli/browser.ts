import { spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

/**
 * Opens a browser on an address that nobody else may learn. Whoever is logged in here can read the arguments of every program, so the browser is
 * given a file that only its owner may read, and the file leads on.
 *
 * @param url the address, with its secret
 * @returns takes the file away
 */
export function openBrowser(url: string): () => void {
  const folder = mkdtempSync(join(tmpdir(), "fettle-"));
  const file = join(folder, "open.html");
  const safe = url.replace(/&/g, "&amp;").replace(/"/g, "&quot;");
  writeFileSync(file, `<!doctype html><meta charset="utf-8"><title>Fettle</title><meta http-equiv="refresh" content="0;url=${safe}">\n`, {
    mode: 0o600,
    flag: "wx",
  });
  const at = pathToFileURL(file).href;
  const [program, ...args] =
    process.platform === "darwin" ? ["open", at] : process.platform === "win32" ? ["cmd", "/c", "start", "", at] : ["xdg-open", at];
  spawn(program, args, { stdio: "ignore", detached: true })
    .on("error", () => undefined)
    .unref();
  return () => rmSync(folder, { recursive: true, force: true });
}

/** Bundles the command line with the page that it serves and the thread that works beside it, or the entry named on the command line; pages of theory are taken in as text. */
import { copyFileSync, mkdirSync } from "node:fs";
import { build } from "esbuild";

const [entry, outfile] = process.argv.slice(2);
const node = {
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node20",
  packages: "external",
  loader: { ".md": "text" },
  sourcemap: true,
  logLevel: "warning",
};
if (entry) await build({ ...node, entryPoints: [entry], outfile });
else {
  await build({ ...node, entryPoints: ["src/faces/cli/index.ts"], outfile: "dist/fettle.mjs" });
  await build({ ...node, entryPoints: ["src/faces/errands/errand-thread.ts"], outfile: "dist/errand-thread.mjs" });
  mkdirSync("dist/page", { recursive: true });
  await build({
    entryPoints: { page: "src/faces/web/app.tsx", worker: "src/faces/web/worker.ts", "page-style": "src/faces/web/page.css" },
    entryNames: "[name]",
    assetNames: "[name]-[hash]",
    bundle: true,
    platform: "browser",
    format: "esm",
    target: "es2022",
    minify: true,
    jsx: "automatic",
    loader: { ".md": "text", ".woff2": "file" },
    define: { "process.env.NODE_ENV": '"production"', global: "globalThis" },
    outdir: "dist/page",
    logLevel: "warning",
  });
  copyFileSync("dist/page/page-style.css", "dist/page/page.css");
  copyFileSync("src/faces/web/index.html", "dist/page/index.html");
}

/** Bundles the command line with the page that it serves and the thread that works beside it, or the entry named on the command line; pages of theory are taken in as text. */
import { execFile } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync } from "node:fs";
import { readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { promisify } from "node:util";
import { brotliCompress } from "node:zlib";
import { build } from "esbuild";
import { wasmInBundles, watInBundles } from "./assemble.mjs";

const [entry, outfile] = process.argv.slice(2);
/** Messages of the checks in other languages than the one that is shown are not taken in. */
const englishOnly = {
  name: "english-only",
  setup: (b) =>
    b.onLoad({ filter: /zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, () => ({ contents: 'export { default as en } from "./en.js";' })),
};
const node = {
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node20",
  loader: { ".md": "text" },
  plugins: [watInBundles, wasmInBundles, englishOnly],
  sourcemap: true,
  logLevel: "warning",
};
/** Left where they are installed: what is compiled, and what reads files of its own or is rarely loaded. All else is taken in, since many small files start slowly. */
const external = ["better-sqlite3", "pdfmake", "hono", "@hono/node-server", "pg", "@wasm-audio-decoders/flac"];
/** Short commands on a store of their own: what they have compiled is kept beside the piece, each adds to what stands (src/faces/load.ts). Without it all starts as well, only later. */
async function keepCompiled() {
  const folder = mkdtempSync(join(tmpdir(), "fettle-build-"));
  const env = { ...process.env, FETTLE_DATABASE_URL: "", FETTLE_STORE: join(folder, "jobs.db"), FETTLE_KEEP_COMPILED: "1" };
  try {
    for (const words of ["new Set --pattern nine-tube-bandspread", "next Set", "sheet q-multiplier Set"])
      await promisify(execFile)(process.execPath, ["dist/fettle.mjs", ...words.split(" ")], { env });
  } catch (e) {
    process.stderr.write(`nothing compiled is kept: ${e.message}\n`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
if (entry) await build({ ...node, packages: "external", entryPoints: [entry], outfile });
else {
  // parts that both share, or that a command loads only when it is asked for, are named by what is in them; those of earlier builds go after a day,
  // since a page that is still served may ask for one
  const old = (f) => Date.now() - statSync(f).mtimeMs > 24 * 3600 * 1000;
  for (const folder of ["dist", "dist/page"])
    if (existsSync(folder))
      for (const f of readdirSync(folder))
        if (/^(?:part|fettle)-.*\.[cm]?js(\.map|\.br|\.compiled)?$/.test(f) && old(join(folder, f))) rmSync(join(folder, f));
  const { metafile } = await build({
    ...node,
    format: "cjs",
    external,
    entryPoints: { fettle: "src/faces/start.ts" },
    outdir: "dist",
    entryNames: "[name]-[hash]",
    outExtension: { ".js": ".cjs" },
    // what was compiled of it beforehand imports nothing: it asks for packages in the other way
    supported: { "dynamic-import": false },
    define: { "import.meta.url": "whereItStands" },
    banner: { js: 'const whereItStands = require("node:url").pathToFileURL(__filename).href;' },
    // names stay for whoever reads a trace; blanks only make it longer to load
    minifyWhitespace: true,
    minifySyntax: true,
    metafile: true,
  });
  const piece = basename(Object.keys(metafile.outputs).find((f) => f.endsWith(".cjs")));
  await build({ ...node, entryPoints: ["src/faces/load.ts"], outfile: "dist/fettle.mjs", define: { piece: JSON.stringify(piece) } });
  await keepCompiled();
  mkdirSync("dist/page", { recursive: true });
  const browser = {
    entryNames: "[name]",
    assetNames: "[name]-[hash]",
    bundle: true,
    platform: "browser",
    format: "esm",
    target: "es2022",
    minify: true,
    jsx: "automatic",
    jsxImportSource: "preact",
    plugins: [watInBundles, wasmInBundles, englishOnly],
    define: { "process.env.NODE_ENV": '"production"', global: "globalThis" },
    outdir: "dist/page",
    logLevel: "warning",
  };
  // what a page of the page needs is loaded when it is opened
  await build({
    ...browser,
    entryPoints: { page: "src/faces/web/app.tsx", "page-style": "src/faces/web/page.css", "shop-style": "src/faces/web/shop.css" },
    splitting: true,
    chunkNames: "part-[name]-[hash]",
    loader: { ".md": "text", ".woff2": "file" },
  });
  // who works answers out reads no pages of theory
  await build({
    ...browser,
    entryPoints: {
      worker: "src/faces/web/worker.ts",
      "ear-worker": "src/faces/web/listen/ear-worker.ts",
      tap: "src/faces/web/listen/tap.ts",
      "strip-processor": "src/faces/web/hear/strip-processor.ts",
      "band-worker": "src/faces/web/hear/band-worker.ts",
    },
    loader: { ".md": "empty" },
  });
  copyFileSync("dist/page/page-style.css", "dist/page/page.css");
  copyFileSync("dist/page/shop-style.css", "dist/page/shop.css");
  copyFileSync("src/faces/web/index.html", "dist/page/index.html");
  // packed as small as they get once, here: a server would take seconds over it
  const packed = readdirSync("dist/page").filter((f) => /\.(?:js|css)$/.test(f) && !(/^part-/.test(f) && existsSync(`dist/page/${f}.br`)));
  await Promise.all(
    packed.map(async (f) => writeFile(`dist/page/${f}.br`, await promisify(brotliCompress)(await readFile(`dist/page/${f}`)))),
  );
}

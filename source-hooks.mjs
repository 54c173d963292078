/** How Node takes in this project's sources as they stand, for tests: as esbuild takes them into the bundle, one by one. */
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { extname } from "node:path";
import { fileURLToPath } from "node:url";
import { transform } from "esbuild";
import { assemble, instantiated } from "./assemble.mjs";

const loaders = { ".ts": "ts", ".tsx": "tsx", ".json": "json", ".md": "text", ".wat": "binary" };
const ours = (url) => url.startsWith("file:") && !url.includes("/node_modules/");
/** An import may leave these out, as bundlers let it. */
const endings = [".ts", ".tsx", "/index.ts"];
const written = /\.(?:tsx?|mjs|js|md|wat|wasm|json)$/;

/** What a module that is loaded afresh imports is loaded afresh too. */
export async function resolve(specifier, context, next) {
  if (!specifier.startsWith(".") || !ours(context.parentURL ?? "")) return next(specifier, context);
  const afresh = /\?afresh=\d+$/.exec(context.parentURL)?.[0] ?? "";
  const { href } = new URL(specifier, context.parentURL);
  const file = written.test(href) ? href : endings.map((e) => href + e).find((f) => existsSync(fileURLToPath(f)));
  return file ? { url: file + afresh, shortCircuit: true } : next(specifier, context);
}

const module = (source) => ({ format: "module", source, shortCircuit: true });
export async function load(url, context, next) {
  if (!url.startsWith("file:")) return next(url, context);
  const path = fileURLToPath(url.replace(/\?.*$/, ""));
  if (path.endsWith(".wasm")) return module(await instantiated(path));
  // its one package of WebAssembly is written for bundlers, and doesn't say that it is of modules
  if (url.includes("/node_modules/ebur128-wasm/")) return module(await readFile(path, "utf8"));
  const loader = loaders[extname(path)];
  if (!ours(url) || loader === undefined) return next(url, context);
  const { code } = await transform(loader === "binary" ? await assemble(path) : await readFile(path, "utf8"), {
    loader,
    format: "esm",
    platform: "node",
    target: "node20",
    jsx: "automatic",
    jsxImportSource: "preact",
    sourcemap: "inline",
    sourcefile: path,
  });
  return module(code);
}

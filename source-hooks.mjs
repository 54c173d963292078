/** How Node takes in this project's sources as they stand, for tests: TypeScript by esbuild, pages of theory as text, WebAssembly as a bundle has it. */
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { transform } from "esbuild";
import { assembled, instantiated } from "./assemble.mjs";

const ours = (url) => url.startsWith("file:") && !url.includes("/node_modules/");
/** An import leaves the ending out, as bundlers let it. */
const endings = ["", ".ts", ".tsx", "/index.ts"];
const written = /\.(?:tsx?|mjs|js|md|wat|wasm|json)$/;

/** What a module that is loaded afresh imports is loaded afresh too. */
export async function resolve(specifier, context, next) {
  if (!specifier.startsWith(".") || !ours(context.parentURL ?? "")) return next(specifier, context);
  const at = new URL(specifier, context.parentURL);
  const afresh = /\?afresh=\d+$/.exec(context.parentURL)?.[0] ?? at.search;
  at.search = "";
  for (const ending of written.test(at.pathname) ? [""] : endings.slice(1))
    if (existsSync(fileURLToPath(at.href + ending))) return { url: at.href + ending + afresh, shortCircuit: true };
  return next(specifier, context);
}

const module = (source) => ({ format: "module", source, shortCircuit: true });
/** What a file of JSON holds, whole and by its names. */
const data = (text) =>
  [
    `const whole = ${text};`,
    "export default whole;",
    ...Object.keys(JSON.parse(text)).map(
      (name, i) => `const own${i} = whole[${JSON.stringify(name)}]; export { own${i} as ${JSON.stringify(name)} };`,
    ),
  ].join("\n");
export async function load(url, context, next) {
  if (!url.startsWith("file:")) return next(url, context);
  const path = fileURLToPath(url.replace(/\?.*$/, ""));
  if (path.endsWith(".wasm")) return module(await instantiated(path));
  // its one package of WebAssembly is written for bundlers, and doesn't say that it is of modules
  if (url.includes("/node_modules/ebur128-wasm/")) return module(await readFile(path, "utf8"));
  if (!ours(url)) return next(url, context);
  if (path.endsWith(".json")) return module(data(await readFile(path, "utf8")));
  if (path.endsWith(".md")) return module(`export default ${JSON.stringify(await readFile(path, "utf8"))}`);
  if (path.endsWith(".wat")) return module(await assembled(path));
  if (!/\.tsx?$/.test(path)) return next(url, context);
  const { code } = await transform(await readFile(path, "utf8"), {
    loader: path.endsWith("x") ? "tsx" : "ts",
    format: "esm",
    target: "node20",
    jsx: "automatic",
    jsxImportSource: "preact",
    sourcemap: "inline",
    sourcefile: path,
  });
  return module(code);
}

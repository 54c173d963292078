/** Takes in WebAssembly as its text: assembled by wabt as a bundle is made, or as a test asks for it. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { basename } from "node:path";
import wabt from "wabt";

/** Bytes of a module from its text. */
export async function assemble(path) {
  const parsed = (await wabt()).parseWat(basename(path), await readFile(path, "utf8"), { simd: true });
  try {
    return parsed.toBinary({}).buffer;
  } finally {
    parsed.destroy();
  }
}

/** A module that instantiates WebAssembly with what its glue beside it gives it, and exports what it exports: as bundlers have it. */
export async function instantiated(path) {
  const bytes = await readFile(path);
  const module = await WebAssembly.compile(bytes);
  const from = [...new Set(WebAssembly.Module.imports(module).map((i) => i.module))];
  return [
    ...from.map((f, i) => `import * as given${i} from ${JSON.stringify(f)};`),
    `const bytes = Uint8Array.from(atob(${JSON.stringify(bytes.toString("base64"))}), (c) => c.charCodeAt(0));`,
    `const all = new WebAssembly.Instance(new WebAssembly.Module(bytes), { ${from.map((f, i) => `${JSON.stringify(f)}: given${i}`).join(", ")} }).exports;`,
    ...WebAssembly.Module.exports(module).map(
      ({ name }, i) => `const own${i} = all[${JSON.stringify(name)}]; export { own${i} as ${JSON.stringify(name)} };`,
    ),
  ].join("\n");
}

/** For esbuild: an import of `x.wasm` gives its exports. */
export const wasmInBundles = {
  name: "wasm",
  setup: (build) => {
    // taken in even where packages are not: Node can't import it by itself
    build.onResolve({ filter: /^ebur128-wasm\// }, ({ path }) => ({ path: createRequire(import.meta.url).resolve(path) }));
    build.onLoad({ filter: /\.wasm$/ }, async ({ path }) => ({ contents: await instantiated(path), loader: "js" }));
  },
};
/** For esbuild: an import of `x.wat` gives its bytes. */
export const watInBundles = {
  name: "wat",
  setup: (build) => build.onLoad({ filter: /\.wat$/ }, async ({ path }) => ({ contents: await assemble(path), loader: "binary" })),
};

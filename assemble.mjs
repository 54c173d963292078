/** Takes in WebAssembly as its text: assembled by wabt as a bundle is made, or as a test asks for it. */
import { readFile } from "node:fs/promises";
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

/** For esbuild: an import of `x.wat` gives its bytes. */
export const watInBundles = {
  name: "wat",
  setup: (build) => build.onLoad({ filter: /\.wat$/ }, async ({ path }) => ({ contents: await assemble(path), loader: "binary" })),
};

/** The same for tests. */
export const watInTests = {
  name: "wat",
  enforce: "pre",
  async load(id) {
    if (!id.endsWith(".wat")) return undefined;
    const base64 = Buffer.from(await assemble(id)).toString("base64");
    return `export default Uint8Array.from(atob("${base64}"), (c) => c.charCodeAt(0));`;
  },
};

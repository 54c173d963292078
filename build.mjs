/** Bundles the command line; libraries stay in node_modules. */
import { build } from "esbuild";

await build({
  entryPoints: ["src/faces/cli/index.ts"],
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node20",
  outfile: "dist/fettle.mjs",
  packages: "external",
  loader: { ".md": "text" },
  sourcemap: true,
  logLevel: "warning",
});

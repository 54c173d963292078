/** Bundles the command line, or the entry named on the command line; libraries stay in node_modules, pages of theory are taken in as text. */
import { build } from "esbuild";

const [entry = "src/faces/cli/index.ts", outfile = "dist/fettle.mjs"] = process.argv.slice(2);
await build({
  entryPoints: [entry],
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node20",
  outfile,
  packages: "external",
  loader: { ".md": "text" },
  sourcemap: true,
  logLevel: "warning",
});

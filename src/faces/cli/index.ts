import { commandLine } from "./main";
import { realWorld } from "./world";

process.stdout.on("error", (e: NodeJS.ErrnoException) => {
  if (e.code === "EPIPE") process.exit(0);
  throw e;
});
process.exitCode = await commandLine(realWorld()).run(process.argv.slice(2));

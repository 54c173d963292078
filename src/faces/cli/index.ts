import { commandLine, realWorld } from "./main";

process.stdout.on("error", (e: NodeJS.ErrnoException) => {
  if (e.code === "EPIPE") process.exit(0);
  throw e;
});
process.exitCode = await commandLine(realWorld()).run(process.argv.slice(2));

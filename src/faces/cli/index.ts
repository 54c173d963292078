import { commandLine } from "./main";
import { realWorld } from "./world";

process.stdout.on("error", (e: NodeJS.ErrnoException) => {
  if (e.code === "EPIPE") process.exit(0);
  throw e;
});
try {
  process.exitCode = await commandLine(realWorld()).run(process.argv.slice(2));
} catch (e) {
  // a defect is told in a line; FETTLE_TRACE=1 shows where it is
  const said = e instanceof Error ? `${e.name}: ${e.message}` : String(e);
  const where = process.env.FETTLE_TRACE && e instanceof Error ? `\n${e.stack}` : "";
  process.stderr.write(`A defect of Fettle's own stopped this (${said}). What was recorded before is whole; please report it.${where}\n`);
  process.exitCode = 2;
}

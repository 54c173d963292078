import { randomUUID } from "node:crypto";
import { tell } from "../../desk/tell";
import { seen } from "../../units/plain-text";
import { builtThread, errandThreads } from "../errands/errand-threads";
import { errandsWhenAsked } from "../errands/errands-when-asked";
import { commandLine } from "./main";
import { realWorld } from "./world";

process.stdout.on("error", (e: NodeJS.ErrnoException) => {
  if (e.code === "EPIPE") process.exit(0);
  throw e;
});
process.on("uncaughtException", (e) => {
  process.stderr.write(`${seen(tell(e).lines)}\n`);
  if (process.env.FETTLE_TRACE) process.stderr.write(`${seen(e.stack ?? "")}\n`);
  process.exit(2);
});
const script = builtThread();
const threads = script ? errandThreads(script) : undefined;
process.exitCode = await commandLine(realWorld(threads ?? errandsWhenAsked(randomUUID))).run(process.argv.slice(2));
await threads?.close();

import { randomUUID } from "node:crypto";
import { builtThread, errandThreads } from "../errands/errand-threads";
import { errandsWhenAsked } from "../errands/errands-when-asked";
import { worksAlone, worksBeside } from "./lines";

/** Does what was asked for on the command line of this process, and leaves its code. */
export async function begin(argv: readonly string[]): Promise<void> {
  // a thread of its own loads all that this one has loaded already: one question is answered sooner here
  const script = worksAlone.includes(argv[0] ?? "") ? undefined : builtThread();
  const threads = script ? errandThreads(script) : undefined;
  // the thread loads while this one does
  if (worksBeside.includes(argv[0] ?? "") && !argv.includes("--help")) threads?.ready();
  const [{ tell }, { seen }, { commandLine }, { realWorld }] = await Promise.all([
    import("../../desk/tell"),
    import("../../units/plain-text"),
    import("./main"),
    import("./world"),
  ]);
  process.stdout.on("error", (e: NodeJS.ErrnoException) => {
    if (e.code === "EPIPE") process.exit(0);
    throw e;
  });
  process.on("uncaughtException", (e) => {
    process.stderr.write(`${seen(tell(e).lines)}\n`);
    if (process.env.FETTLE_TRACE) process.stderr.write(`${seen(e.stack ?? "")}\n`);
    process.exit(2);
  });
  process.exitCode = await commandLine(realWorld(threads ?? errandsWhenAsked(randomUUID))).run(argv);
  await threads?.close();
}

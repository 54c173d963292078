/** The whole program in one piece: the command line on the first thread, errands on the others. What nobody asks for is not made ready. */
import { isMainThread } from "node:worker_threads";

void (isMainThread ? import("./cli/index").then(({ begin }) => begin(process.argv.slice(2))) : import("./errands/errand-thread"));

/** A thread that does errands one at a time; whoever started it sets its limits and may end it at any moment. */
import { randomUUID } from "node:crypto";
import { parentPort } from "node:worker_threads";
import type { ErrandName, Given } from "../../desk/errand";
import { InputError } from "../../units/issue";
import { errandsHere } from "./errands-here";
import type { Heard } from "./one-errand";

const port = parentPort;
const here = errandsHere(randomUUID);
port?.on("message", async ({ name, given }: { readonly name: ErrandName; readonly given: Given<ErrandName> }) => {
  const say = (m: Heard): void => port.postMessage(m);
  try {
    say({ kind: "done", value: await here.run(name, given, { progress: (said) => say({ kind: "progress", said }) }) });
  } catch (e) {
    if (e instanceof InputError) say({ kind: "issues", issues: e.issues });
    else say({ kind: "failed", error: e });
  }
});

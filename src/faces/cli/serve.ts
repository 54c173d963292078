import { serve } from "../../desk/commands/serve";
import { homeOf } from "../../store/home";
import { linesTogether } from "../server/shop/log";
import { planOf } from "../server/shop/plan";
import { startShop } from "../server/shop/start-shop";
import { line } from "./line";

/** A shop, served until it is stopped; its log goes where errors go. */
export const serveLine = line(serve, async ({ here, out, world }) => {
  const running = await startShop(homeOf(world.env), planOf(here), {
    metricsPort: here.metrics,
    log: linesTogether(world.err),
  });
  out(`The shop: ${running.address}\nEverybody signs in there. Stop it with Ctrl-C.`);
  const { accounts } = running.keeping;
  // what the system keeps of what is printed is no place for a code
  if (world.env.JOURNAL_STREAM) {
    if (!(await accounts.list()).some((a) => a.role === "keeper" && a.set && !a.shut))
      out("There is no keeper yet. At this machine: fettle account NAME --role keeper");
  } else {
    const code = await accounts.firstCode();
    const at = `Open ${running.address}password and type this code, good once, for 24 hours`;
    if (code !== undefined) out(`\nThere is no keeper yet. ${at}:\n\n  ${code}\n\nIt is shown only this once. Who has it keeps the shop.`);
  }
  await new Promise<void>((done) => {
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => void running.close().then(done));
  });
});

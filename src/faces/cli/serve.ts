import { serve } from "../../desk/commands/serve";
import { homeOf } from "../../store/home";
import { asJson } from "../server/shop/log";
import { planOf } from "../server/shop/plan";
import { startShop } from "../server/shop/start-shop";
import { line } from "./line";

/** A shop, served until it is stopped; its log goes where errors go. */
export const serveLine = line(serve, async ({ here, out, world }) => {
  const running = await startShop(homeOf(world.env), planOf(here), {
    metricsPort: here.metrics,
    log: (entry) => world.err(asJson(entry)),
  });
  out(`The shop: ${running.address}\nEverybody signs in there. Stop it with Ctrl-C.`);
  if (running.firstCode !== undefined)
    out(
      `\nThere is no keeper yet. Open ${running.address}password and type this code, good once, for 24 hours:\n\n  ${running.firstCode}\n\nIt is shown only this once. Who has it keeps the shop.`,
    );
  await new Promise<void>((done) => {
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => void running.close().then(done));
  });
});

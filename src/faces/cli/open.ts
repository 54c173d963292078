import { open } from "../../desk/commands/open";
import { homeOf } from "../../store/home";
import { warningOf } from "../../store/upgrade";
import { InputError } from "../../units/issue";
import { houseAddress } from "../server/joining/house";
import { startServer } from "../server/listen";
import { openBrowser } from "./browser";
import { line } from "./line";

/** The page: served until it is stopped. */
export const openLine = line(open, async ({ said, here, act, out, world }) => {
  const port = here.port === undefined ? 0 : Number(here.port);
  if (!Number.isInteger(port) || port < 0 || port > 65535)
    throw new InputError([{ path: "--port", code: "not-a-port", read: here.port ?? "", expected: "a whole number from 0 to 65535" }]);
  await act(said);
  const house = here.house === undefined ? [] : [houseAddress(here.house)];
  const home = homeOf(world.env);
  const running = await startServer(home, port, house.length > 0 ? () => house : undefined, out);
  const url = said.job === undefined ? running.url : `${running.url}#/job/${encodeURIComponent(said.job)}`;
  out(`Fettle's page: ${url}\nIt opens only at this full address, and only on this machine: keep it to yourself. Stop it with Ctrl-C.`);
  const warning = await warningOf(home);
  if (warning !== undefined) out(warning);
  const closeFile = here.browser ? openBrowser(url) : () => undefined;
  await new Promise<void>((done) => {
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => void running.close().then(done));
  });
  closeFile();
});

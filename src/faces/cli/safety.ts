import { beforeOpening } from "../../desk/commands/before-opening";
import { chassis } from "../../desk/commands/chassis";
import { line } from "./line";
import { wrap } from "./render";

/** What comes before anything is opened: the page to read, and the act that proves the chassis. */
export const beforeOpeningLine = line(beforeOpening, async ({ said, act, out, world: { page } }) =>
  out(
    [
      page.bold("Before you open the case"),
      ...(await act(said)).flatMap((b) => ["", page.bold(b.title), ...wrap(b.says, page.columns)]),
      "",
      ...wrap("Sign for it on the safety card: Page before opening read, signed. Local code and licensed practice prevail.", page.columns),
    ].join("\n"),
  ),
);

export const chassisLine = line(chassis, async ({ said, act, out }) => {
  const { stands } = await act(said);
  out(`Recorded in "${said.job}": the chassis is ${stands}.`);
});

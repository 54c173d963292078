import { openJob } from "../../desk/actions";
import { chassisAct } from "../../desk/chassis-act";
import { record } from "../../desk/record";
import { beforeOpening } from "../../standards/before-opening";
import { orThrow } from "../../units/issue";
import type { Commands } from "./commands";
import { wrap } from "./render";

interface Typed {
  readonly ohms?: string;
  readonly voltsOneWay?: string;
  readonly voltsOtherWay?: string;
  readonly transformer?: string;
  readonly meter?: string;
  readonly how?: string;
  readonly confirm?: string;
}

/** What comes before anything is opened: the page to read, and the act that proves the chassis. */
export function safetyCommands({ command, desk, world }: Commands): void {
  const { out, page } = world;
  command(
    "before-opening",
    "the page to read once before you open the case, and to sign on the safety card",
    "fettle before-opening",
  ).action(() =>
    out(
      [
        page.bold("Before you open the case"),
        ...beforeOpening.flatMap((b) => ["", page.bold(b.title), ...wrap(b.says, page.columns)]),
        "",
        ...wrap(
          "Sign it on the card of the safety record: Page before opening read, signed. Local code and licensed practice prevail.",
          page.columns,
        ),
      ].join("\n"),
    ),
  );
  command(
    "chassis <job> <state>",
    "record how the chassis stands to the line, with what was measured; until then it counts as live",
    'fettle chassis "Harbour club set" isolated --ohms "22 Mohm" --meter "insulation tester, 500 V" --how "each blade to chassis, switch on; own transformer traced" --confirm isolated',
  )
    .option("--ohms <value>", "unplugged, switch on: ohms from the blades of the plug to the chassis, the lower of the two")
    .option("--volts-one-way <value>", "behind an isolation transformer, set on: volts from chassis to earth across 1.5 kΩ")
    .option("--volts-other-way <value>", "the same with the plug the other way round")
    .option("--transformer <text>", "the line isolation transformer: its rating")
    .option("--meter <text>", "what it was measured with")
    .option("--how <text>", "what was traced and how it was measured")
    .option("--confirm <state>", "the state, said once more")
    .action(async (job: string, state: string, o: Typed) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        await record(d, view, [orThrow(chassisAct(view, { state, ...o }, d.stamp))]);
        out(`Recorded in "${job}": the chassis is ${(await openJob(d, job)).chassis}.`);
      });
    });
}

import { response } from "../../desk/commands/response";
import { testNoiseCommand } from "../../desk/commands/test-noise";
import { ofStrip, type ResponseTold, type ResponseWay } from "../../desk/response";
import { noiseLead } from "../../standards/audio-lead";
import type { Caution } from "../../standards/cautions";
import { generatorLead } from "../../standards/generator-lead";
import { printInterval } from "../../units/print";
import { heardLines, leadHelp, sayLead, warningLines } from "./ear";
import { line } from "./line";
import { checkOutput, writeBytes } from "./output";
import { cautionLines, columnsOf, type Page, wrap } from "./render";

const mostRows = 16;
type Edge = NonNullable<ResponseTold["ends"][number]["low"]>;
const within = ({ hz, uHz }: Edge): string => printInterval(hz, Math.max(0, hz - 1.96 * uHz), hz + 1.96 * uHz, "frequency");

/** Where it ends, and how wide it is in between. */
const endRows = ({ ends, by }: ResponseTold): string[][] =>
  ends.map(({ downDb, low, high }) => {
    const width = low && high && ofStrip(by) ? [within({ hz: high.hz - low.hz, uHz: Math.hypot(low.uHz, high.uHz) })] : [];
    return [`${downDb} dB down`, low ? within(low) : "not reached", high ? within(high) : "not reached", ...width];
  });
function pointRows({ points }: ResponseTold): string[][] {
  const each = Math.max(1, Math.ceil(points.length / mostRows));
  return points
    .filter((_, i) => i % each === 0)
    .map((p) => [`${p.hz.toFixed(0)} Hz`, `${p.levelDb.toFixed(1)} dB`, `±${Math.max(0.1, 1.96 * p.uDb).toFixed(1)} dB`]);
}
const toldLines = (told: ResponseTold, page: Page): string[] => [
  ...told.heard.flatMap((h) => heardLines(h, page)),
  ...warningLines(told.warnings, page),
  "",
  ...told.says.flatMap((s, i) => wrap(s, page.columns, "", "  ").map((l) => (i === 0 ? page.bold(l) : l))),
  "",
  ...columnsOf([["", "from", "to", ...(ofStrip(told.by) ? ["width"] : [])], ...endRows(told)], page.columns),
  "",
  ...columnsOf([["at", "below the highest", "95 %"], ...pointRows(told)], page.columns),
];

/** What is led into the set beside its own sound, by the way of taking a response, and what is to be heeded there. */
type Led = readonly [says: string, cautions: readonly Caution[]];
const noiseLed: Led = ["Before you lead test noise into the set:", noiseLead];
const ledIn: Readonly<Partial<Record<ResponseWay, Led>>> = {
  audio: noiseLed,
  generator: ["Before the generator's output goes on:", generatorLead],
};
const ledLines = ([says, cautions]: Led, page: Page): string[] => [says, ...cautionLines(cautions, page, "  ")];

export const responseLine = line(
  response,
  async (call) => {
    const { said, here, act, out, world } = call;
    const { page } = world;
    if (here.output !== undefined) checkOutput(world, { path: here.output, replace: here.replace });
    sayLead(call, said.file.name);
    const led = ledIn[said.by];
    if (said.file.name === "piped in" && led) world.err(ledLines(led, page).join("\n"));
    const done = await act(said, { progress: world.progress });
    if (here.output !== undefined) await writeBytes(world, { path: here.output, replace: true }, done.csv);
    if (here.json) return out(JSON.stringify(done.response, null, 1));
    const { kept } = done;
    out(
      [
        ...toldLines(done.response, page),
        ...(here.output === undefined ? [] : [`Written to ${here.output}.`]),
        ...(kept ? [`Kept in "${said.job}" as reading ${kept.reading.id}; the sound itself stays in its file.`] : []),
        ...(kept?.fit ? [`The strip fits it to ${kept.fit.rmsDb.toFixed(2)} dB rms at ${kept.fit.usedPoints} points.`] : []),
      ].join("\n"),
    );
  },
  (world) => [leadHelp(world), ...Object.values(ledIn).map((led) => ledLines(led, world.page).join("\n"))].join("\n\n"),
);
export const testNoiseLine = line(
  testNoiseCommand,
  async ({ said, here, act, out, world }) => {
    checkOutput(world, { path: here.output, replace: here.replace });
    await writeBytes(world, { path: here.output, replace: here.replace }, await act(said));
    out(
      [`${here.output}: play it at a level that nothing cuts off, and record what comes back.`, ...ledLines(noiseLed, world.page)].join(
        "\n",
      ),
    );
  },
  ({ page }) => `\n\n${ledLines(noiseLed, page).join("\n")}`,
);

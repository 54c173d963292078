import { hum } from "../../desk/commands/hum";
import { type HumOf, underFull } from "../../desk/hum-entries";
import { printValue } from "../../units/print";
import { heardLines, leadHelp, saidDevice, sayLead, warningLines } from "./ear";
import { line } from "./line";
import { columnsOf, findingLines, type Page, wrap } from "./render";

/** What is told of a hum at a terminal. */
const cell = (h: HumOf | undefined, order: number): string => {
  const l = h?.told.lines.find((x) => x.order === order);
  if (!l) return "";
  return l.stands ? `${l.rmsDbfs.toFixed(1)} ±${Math.max(0.1, 1.96 * l.uDb).toFixed(1)}` : `under ${Math.ceil(l.rmsDbfs)}`;
};
/** A table of the lines, one column a recording. */
function table(all: readonly (readonly [string, HumOf | undefined])[], page: Page): string[] {
  const columns = all.filter(([, h]) => h !== undefined);
  const first = columns[0]?.[1]?.told;
  if (!first) return [];
  const orders = first.lines
    .map((l) => l.order)
    .filter((o) => o <= 4 || columns.some(([, h]) => h?.told.lines.some((l) => l.order === o && l.stands)));
  return columnsOf(
    [
      ["line", ...columns.map(([name]) => name)],
      ...orders.map((o) => [`${o * first.nominalHz} Hz`, ...columns.map(([, h]) => cell(h, o))]),
    ],
    page.columns,
  );
}

/** Hum on a carrier's beat with the BFO. */
function sidebandLines(of: HumOf | undefined, page: Page): string[] {
  const { sidebands } = of ?? {};
  if (!sidebands) return [];
  const percent = (depth: number): string => `${(100 * depth).toPrecision(2)} %`;
  const pairs = sidebands.pairs.map(
    (p) => `${p.apartHz} Hz to both sides ${p.stands ? `modulates it ${percent(p.depth)} deep` : `under ${percent(p.depth)}`}`,
  );
  return wrap(
    `On the carrier's beat at ${sidebands.toneHz.toFixed(0)} Hz: ${pairs.join(", ")}. The sidebands don't tell whether it is the carrier's level or its frequency that is modulated, or the BFO's.`,
    page.columns,
    "  ",
  );
}

export const humLine = line(
  hum,
  async (call) => {
    const { said, here, act, out, world } = call;
    const { page } = world;
    sayLead(call, said.file.name);
    const { normal, atZero, carrier, full, findings, kept } = await act(said, { progress: world.progress });
    if (here.json) return out(JSON.stringify({ normal, atZero, carrier, full, findings }, null, 1));
    const recordings = [normal, atZero, carrier, full].filter((h) => h !== undefined);
    const { mains, allRmsDbfs } = normal.told;
    const below = full && underFull(normal, full);
    const within = below ? ` (${(below.db - 1.96 * below.uDb).toFixed(1)} to ${(below.db + 1.96 * below.uDb).toFixed(1)})` : "";
    const whole = full ? "full output" : "the whole sound of this recording";
    out(
      [
        ...recordings.flatMap(({ heard }) => [...heardLines(heard, page), ...warningLines(heard.warnings, page)]),
        "",
        ...(mains && allRmsDbfs !== undefined
          ? [
              page.bold(
                `Hum: ${allRmsDbfs.toFixed(1)} dB re full scale, ${(below?.db ?? normal.told.soundRmsDbfs - allRmsDbfs).toFixed(1)} dB under ${whole}${within}`,
              ),
              `  The mains is at ${printValue(mains.hz, "frequency", Math.hypot(mains.uHz, mains.hz * normal.heard.clockU))}.`,
              "",
              ...wrap(
                `rms, dB re full scale, 95 %; each line summed over its own bins, noise taken off, no weighting; ${saidDevice(said.device)}`,
                page.columns,
                "  ",
              ),
              ...table(
                [
                  ["as used", normal],
                  ["volume at zero", atZero],
                  ["on a carrier", carrier],
                ],
                page,
              ),
              "",
            ]
          : []),
        ...sidebandLines(carrier, page),
        ...findings.flatMap((f) => findingLines(f, page)),
        ...(kept ? [`Kept in "${said.job}" as reading ${kept}; the sound itself stays in its file.`] : []),
      ].join("\n"),
    );
  },
  leadHelp,
);

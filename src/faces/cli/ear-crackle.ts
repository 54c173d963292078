import { crackle } from "../../desk/commands/crackle";
import type { CrackleOf } from "../../desk/crackle-entries";
import { perMinute } from "../../infer/crackle/says";
import { type CrackleEvent, crackleBands } from "../../readings/sound/crackle";
import { clock } from "../../readings/sound/health";
import { heardLines, leadHelp, sayLead, warningLines } from "./ear";
import { line } from "./line";
import { columnsOf, findingLines, type Page } from "./render";

const mostEvents = 20;
const rate = (v: number): string => (v < 10 ? v.toFixed(1) : v.toFixed(0));
const row = (name: string, of: CrackleOf | undefined): string[][] => {
  if (!of) return [];
  const { events } = of.told;
  const inBand = (b: CrackleEvent["bands"][number]): string =>
    String(events.filter((e) => e.kind === "burst" && e.bands.includes(b)).length);
  const kinds = (["burst", "jump"] as const).map((k) => rate(perMinute(of.told, k)));
  return [[name, ...kinds, ...crackleBands.map((b) => inBand(b.name))]];
};
function eventLines(events: readonly CrackleEvent[], page: Page): string[] {
  const rows = events.slice(0, mostEvents).map((e) => {
    const lasts = e.kind === "burst" ? `${(1e3 * e.lastsS).toFixed(0)} ms` : "stays";
    return [clock(e.atS), e.kind, `${e.db > 0 ? "+" : ""}${e.db.toFixed(0)} dB`, lasts, e.bands.join(", ")];
  });
  const more = events.length - rows.length;
  return rows.length === 0
    ? []
    : columnsOf(
        [
          ["at", "kind", "level", "lasts", "bands"],
          ...rows,
          ...(more > 0 ? [["", "", "", "", `and ${more} more; --json has them all`]] : []),
        ],
        page.columns,
      );
}

export const crackleLine = line(
  crackle,
  async (call) => {
    const { said, here, act, out, world } = call;
    const { page } = world;
    sayLead(call, said.file.name);
    const { normal, without, atZero, findings, kept } = await act(said, { progress: world.progress });
    if (here.json) return out(JSON.stringify({ normal, without, atZero, findings }, null, 1));
    const bands = crackleBands.map((b) => `${b.fromHz} to ${b.toHz} Hz`);
    out(
      [
        ...[normal, without, atZero].flatMap((c) => (c ? [...heardLines(c.heard, page), ...warningLines(c.heard.warnings, page)] : [])),
        "",
        ...columnsOf(
          [
            ["", "bursts a minute", "jumps a minute", ...bands],
            ...row("as used", normal),
            ...row("without antenna", without),
            ...row("volume at zero", atZero),
          ],
          page.columns,
        ),
        "",
        ...eventLines(normal.told.events, page),
        "",
        ...findings.flatMap((f) => findingLines(f, page)),
        ...(kept === undefined ? [] : [`Kept in "${said.job}" as reading ${kept}; the sound itself stays in its file.`]),
      ].join("\n"),
    );
  },
  leadHelp,
);

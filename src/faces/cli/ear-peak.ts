import { peak } from "../../desk/commands/peak";
import { saySteady } from "../../desk/tone-words";
import { clock } from "../../readings/sound/health";
import type { Measures, PeakStretch } from "../../readings/sound/peak";
import type { SteadyEvent } from "../../readings/sound/steady-tone";
import { heardLines, leadHelp, sayLead, warningLines } from "./ear";
import { line } from "./line";
import { columnsOf, type Page, wrap } from "./render";

const mostPassages = 20;
const whole = (hz: number): string => `${hz.toFixed(0)} Hz`;
const ofWhat = (m: Measures): string => (m === "whole" ? "the whole sound" : `the tone at ${whole(m.tone)}`);
const level = (db: number): string => `${db.toFixed(1)} dB`;

/** Best, passages and where it was left, of one stretch that measured one thing. */
function stretchLines({ fromS, measures, passages, last }: PeakStretch, page: Page): string[] {
  if (!last) return [];
  const under = -last.underDb;
  const digits = last.scatterDb < 0.25 ? 1 : 0;
  const left = last.place === "at the top" ? "left at the best" : `left ${under.toFixed(digits)} dB under the best`;
  const rows = passages.slice(0, mostPassages).map((p) => [clock(p.atS), level(p.topDb), `after a rise of ${p.roseDb.toFixed(digits)} dB`]);
  const more = passages.length - rows.length;
  return [
    page.bold(`From ${clock(fromS)}, ${ofWhat(measures)}: best ${level(last.bestDb)} re full scale at ${clock(last.bestAtS)}, ${left}`),
    ...(passages.length > 0
      ? columnsOf([["over a peak at", "level", ""], ...rows, ...(more > 0 ? [["", "", `and ${more} more`]] : [])], page.columns)
      : wrap("It passed over no peak: it rose or fell all the way, or moved by less than its own scatter.", page.columns, "  ")),
    "",
  ];
}
const said = (e: SteadyEvent): readonly string[] => [clock(e.atS), saySteady(e)];

export const peakLine = line(
  peak,
  async (call) => {
    const { said: asked, here, act, out, world } = call;
    const { page } = world;
    sayLead(call, asked.file.name);
    const { told, heard } = await act(asked, { progress: world.progress });
    if (here.json) return out(JSON.stringify({ heard, told }, null, 1));
    // what was measured before the tone was found is of no use beside it
    const shown = told.stretches.filter((s) => s.measures !== "whole");
    out(
      [
        ...heardLines(heard, page),
        ...warningLines(heard.warnings, page),
        "",
        ...(shown.length > 0 ? shown : told.stretches).flatMap((s) => stretchLines(s, page)),
        ...(told.events.length > 0 ? columnsOf(told.events.map(said), page.columns) : []),
        ...(asked.of === "tone" && shown.length === 0 ? ["There is no steady tone in it: the level is that of the whole sound."] : []),
      ].join("\n"),
    );
  },
  leadHelp,
);

import { sayBeat } from "../../desk/beat-words";
import { note } from "../../desk/commands/note";
import type { Heard } from "../../desk/heard";
import { clockBy, finestHz, hertzWithin, plainHz, sayJumps, sayTone, shortHz } from "../../desk/tone-words";
import type { ToneEvent } from "../../readings/sound/follow";
import { clock } from "../../readings/sound/health";
import type { ToneTold } from "../../readings/sound/note";
import { audioLead } from "../../standards/audio-lead";
import { printValue } from "../../units/print";
import { closed, upperFirst } from "../../units/sentence";
import { type Call, line } from "./line";
import { cautionLines, columnsOf, type Page, wrap } from "./render";
import type { World } from "./world";

/** What is heard of a recording, told at a terminal. */

/** What is to be heeded before the sound is led out of the set, behind a command's help. */
export const leadHelp = (world: World): string =>
  `\n\nBefore you lead a set's sound into a computer:\n${cautionLines(audioLead, world.page, "  ").join("\n")}`;
/** The same where what is piped in is being taken from the set now. */
export const sayLead = ({ world }: { readonly world: World }, name: string): void => {
  if (name === "piped in")
    world.err(["Before you lead a set's sound into a computer:", ...cautionLines(audioLead, world.page, "  ")].join("\n"));
};
/** Whether the sound device's response is in the levels. */
export const saidDevice = (device: unknown): string =>
  device === undefined ? "the sound device's own response is in it (--device undoes it)" : "the sound device's response undone";
export const heardLines = ({ name, head, health }: Heard, page: Page): string[] => {
  const channels = head.channelsCount === 1 ? "mono" : head.channelsCount === 2 ? "stereo" : `${head.channelsCount} channels`;
  const begun = head.begun ? `, begun ${head.begun}` : "";
  return wrap(
    `${name}: ${clock(health.secondsCount)}, ${printValue(head.sampleRateHz, "frequency")}, ${head.heldAs}, ${channels}${begun}; peak ${health.peakDbfs.toFixed(1)} dB, rms ${health.rmsDbfs.toFixed(1)} dB re full scale`,
    page.columns,
    "",
    "  ",
  );
};
export const warningLines = (warnings: readonly string[], page: Page): string[] =>
  warnings.flatMap((w) => wrap(closed(upperFirst(w)), page.columns, "  ! ", "    "));

const sayEvent = (e: ToneEvent): string => sayTone(e) + (e.kind === "stronger" || e.kind === "second" ? "; --near takes it" : "");
const mostEvents = 12;
const mostRows = 12;

/** Means of so many readings that a table of them can be taken in. */
function trackRows({ readings }: ToneTold): string[][] {
  const each = Math.max(1, Math.ceil(readings.length / mostRows));
  const rows = Array.from({ length: Math.ceil(readings.length / each) }, (_, i) => {
    const part = readings.slice(i * each, (i + 1) * each);
    const mean = (of: (r: (typeof part)[number]) => number) => part.reduce((s, r) => s + of(r), 0) / part.length;
    const u = mean((r) => r.uHz) / part.length;
    return [
      clock(mean((r) => r.atS)),
      `${plainHz(
        mean((r) => r.hz),
        u,
      )} Hz`,
      `${mean((r) => r.peakDbfs).toFixed(1)} dB`,
    ];
  });
  return [["at", each > 1 ? `mean of ${each}` : "frequency", "peak level"], ...rows];
}
function toneLines(tone: ToneTold, heard: Heard, page: Page): string[] {
  const byClock = tone.meanHz * heard.clockU;
  const sureTo = tone.uHz < finestHz / 2 ? "better than 0.1 mHz" : printValue(2 * tone.uHz, "frequency", tone.uHz);
  const minutes = 60 * tone.slopeHzPerS;
  const drifts = Math.abs(tone.slopeHzPerS) > 3 * tone.slopeU && !tone.steady;
  const moved = tone.steady
    ? "It held still: nothing moved that noise does not move."
    : `It ran from ${shortHz(tone.lowHz)} to ${shortHz(tone.highHz)}${drifts ? `; by a straight line ${plainHz(minutes, 60 * tone.slopeU)} Hz a minute` : ""}.`;
  return [
    page.bold(`Tone: ${hertzWithin(tone.meanHz, Math.hypot(tone.uHz, byClock))}, ${tone.meanPeakDbfs.toFixed(1)} dB re full scale`),
    ...(byClock > 2 * tone.uHz
      ? wrap(
          heard.clock.origin === "assumed"
            ? `The interval is the sound device's clock, taken as within 100 ppm; against itself the mean is known to ${sureTo}. Measure the clock once: --standard.`
            : `The interval is the sound device's clock; against itself the mean is known to ${sureTo}.`,
          page.columns,
          "  ",
        )
      : []),
    ...wrap([moved, sayJumps(tone)].join(" ").trim(), page.columns, "  "),
    "",
    ...columnsOf(trackRows(tone), page.columns),
    "",
    ...eventLines(tone.events, page),
  ];
}
function eventLines(events: readonly ToneEvent[], page: Page): string[] {
  const rows = events.slice(0, mostEvents).map((e) => [clock(e.atS), sayEvent(e)]);
  const more = events.length - rows.length;
  return columnsOf(more > 0 ? [...rows, ["", `and ${more} more; --json has them all`]] : rows, page.columns);
}
/** What a standard tone says of the sound device's clock. */
function clockLines(tone: ToneTold, standardHz: number, heard: Heard, page: Page): string[] {
  const { offPpm, ppm, typed } = clockBy(tone, standardHz, heard.clock.value);
  return ppm === undefined
    ? wrap(
        `The tone is no nearer to ${shortHz(standardHz)} than ${offPpm.toFixed(0)} ppm: another tone, a wrong sample rate in the file's header, or a receiver that is off by a beat.`,
        page.columns,
        "  ! ",
        "    ",
      )
    : wrap(`The sound device's clock runs ${ppm}: from now on --clock "${typed}", as long as it stays as warm.`, page.columns, "", "  ");
}

export const noteLine = line(
  note,
  async (call: Call<typeof note.takes, typeof note.here, Awaited<ReturnType<typeof note.act>>>) => {
    const { said, here, act, out, world } = call;
    const { page } = world;
    sayLead(call, said.file.name);
    const { told, heard, beatsWithHz, standardHz, kept } = await act(said, { progress: world.progress });
    if (here.json) return out(JSON.stringify({ heard, told }, null, 1));
    const { tone } = told;
    const none = "No tone rises above the noise long enough to be followed.";
    out(
      [
        ...heardLines(heard, page),
        ...warningLines(heard.warnings, page),
        "",
        ...(tone ? toneLines(tone, heard, page) : [none]),
        ...sayBeat(told, beatsWithHz, heard.clockU).flatMap((t) => wrap(t, page.columns, "", "  ")),
        ...(tone && standardHz !== undefined ? clockLines(tone, standardHz, heard, page) : []),
        ...(kept ? [`Kept in "${said.job}": ${kept.says.join("; ")}.`] : []),
        ...(kept && said.for ? [`fettle sheet ${said.for} "${said.job}" shows what it means.`] : []),
      ].join("\n"),
    );
  },
  leadHelp,
);

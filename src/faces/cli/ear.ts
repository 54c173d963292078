import { note } from "../../desk/commands/note";
import type { Heard } from "../../desk/hear";
import type { ToneEvent } from "../../readings/sound/follow";
import { clock } from "../../readings/sound/health";
import type { NoteTold, ToneTold } from "../../readings/sound/note";
import { audioLead } from "../../standards/audio-lead";
import { decimalsFor, printInterval, printValue } from "../../units/print";
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

/** Nothing here is shown finer: a tenth of a millihertz. */
const finestHz = 1e-4;
/** Notes are in hertz, whatever their size: so their neighbours are easily told apart. */
const plain = (hz: number, uHz: number): string => hz.toFixed(decimalsFor(hz, Math.max(finestHz, uHz)));
const short = (hz: number): string => `${plain(hz, 1e-5 * hz)} Hz`;
const hertz = (hz: number, uHz: number): string =>
  `${plain(hz, uHz)} Hz (${plain(hz - 1.96 * uHz, uHz)} to ${plain(hz + 1.96 * uHz, uHz)})`;
const eventWords: Readonly<Record<ToneEvent["kind"], (e: ToneEvent) => string>> = {
  found: (e) => `found at ${short(e.hz)}`,
  lost: (e) => `lost; it was at ${short(e.hz)}`,
  again: (e) => `there again, at ${short(e.hz)}`,
  stepped: (e) => `stepped from ${"from" in e ? short(e.from) : ""} to ${short(e.hz)}`,
  another: (e) => `another tone is followed from here, at ${short(e.hz)}: whether it is the same one can't be told`,
  stronger: (e) => `a stronger tone at ${short(e.hz)} is not followed; --near takes it`,
};
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
      `${plain(
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
    : `It ran from ${short(tone.lowHz)} to ${short(tone.highHz)}${drifts ? `; by a straight line ${plain(minutes, 60 * tone.slopeU)} Hz a minute` : ""}.`;
  return [
    page.bold(`Tone: ${hertz(tone.meanHz, Math.hypot(tone.uHz, byClock))}, ${tone.meanPeakDbfs.toFixed(1)} dB re full scale`),
    ...(byClock > 2 * tone.uHz
      ? wrap(
          heard.clock.origin === "assumed"
            ? `The interval is the sound device's clock, taken as within 100 ppm; against itself the mean is known to ${sureTo}. Measure the clock once: --standard.`
            : `The interval is the sound device's clock; against itself the mean is known to ${sureTo}.`,
          page.columns,
          "  ",
        )
      : []),
    ...wrap(moved, page.columns, "  "),
    "",
    ...columnsOf(trackRows(tone), page.columns),
    "",
    ...eventLines(tone.events, page),
  ];
}
function eventLines(events: readonly ToneEvent[], page: Page): string[] {
  const rows = events.slice(0, mostEvents).map((e) => [clock(e.atS), eventWords[e.kind](e)]);
  const more = events.length - rows.length;
  return columnsOf(more > 0 ? [...rows, ["", `and ${more} more; --json has them all`]] : rows, page.columns);
}
function beatLines({ apart, swell }: NoteTold, carrierHz: number | undefined, heard: Heard, page: Page): string[] {
  const parts = (hz: number, u: number) =>
    carrierHz === undefined
      ? ""
      : `, ${printInterval(hz / carrierHz, (hz - 1.96 * u) / carrierHz, (hz + 1.96 * u) / carrierHz, "ppm")} of the carrier`;
  const told = (what: string, hz: number, u: number, more: string) =>
    wrap(`${what}: ${hertz(hz, u)}${parts(hz, u)}${more}.`, page.columns, "", "  ");
  return [
    ...(apart ? told("The second tone lies off the first by", apart.meanHz, Math.hypot(apart.uHz, apart.meanHz * heard.clockU), "") : []),
    ...(swell
      ? told(
          "Slow swell",
          swell.hz,
          swell.uHz,
          `: ${swell.beatsCount.toFixed(0)} beats, ${swell.depthDb.toFixed(0)} dB from trough to top; two carriers so far apart`,
        )
      : []),
  ];
}
/** What a standard tone says of the sound device's clock. */
function clockLines(tone: ToneTold, standardHz: number, heard: Heard, page: Page): string[] {
  const now = standardHz / tone.meanHz - 1;
  // one that wanders is no better a standard than it is steady
  const u = Math.hypot(tone.uHz, tone.steady ? 0 : (tone.highHz - tone.lowHz) / 4) / tone.meanHz;
  if (Math.abs(now) > 2e-3)
    return wrap(
      `The tone is no nearer to ${short(standardHz)} than ${(Math.abs(now) * 1e6).toFixed(0)} ppm: another tone, a wrong sample rate in the file's head, or a receiver that is off by a beat.`,
      page.columns,
      "  ! ",
      "    ",
    );
  const ppm = (heard.clock.value + now) * 1e6;
  const digits = decimalsFor(ppm, Math.max(0.01, 2e6 * u));
  return wrap(
    `The sound device's clock runs ${Math.abs(ppm).toFixed(digits)} ppm ${ppm > 0 ? "fast" : "slow"}: from now on --clock "${ppm.toFixed(digits)} ppm u ${Math.max(0.01, 1e6 * u).toFixed(2)} ppm", as long as it is as warm.`,
    page.columns,
    "",
    "  ",
  );
}

export const noteLine = line(
  note,
  async (call: Call<typeof note.takes, typeof note.here, Awaited<ReturnType<typeof note.act>>>) => {
    const { said, here, act, out, world } = call;
    const { page } = world;
    sayLead(call, said.file.name);
    const { told, heard, carrierHz, standardHz, kept } = await act(said, { progress: world.progress });
    if (here.json) return out(JSON.stringify({ heard, told }, null, 1));
    const { tone } = told;
    const none = "No tone stands above the noise long enough to be followed.";
    const carried =
      carrierHz !== undefined && tone
        ? [`That is ${printValue(tone.meanHz / carrierHz, "ppm", (tone.meanHz * 1e-4) / carrierHz)} of the carrier.`]
        : [];
    out(
      [
        ...heardLines(heard, page),
        ...warningLines(heard.warnings, page),
        "",
        ...(tone ? toneLines(tone, heard, page) : [none]),
        ...(told.swell || told.apart ? beatLines(told, carrierHz, heard, page) : carried),
        ...(tone && standardHz !== undefined ? clockLines(tone, standardHz, heard, page) : []),
        ...(kept ? [`Kept in "${said.job}": ${kept.says.join("; ")}.`] : []),
      ].join("\n"),
    );
  },
  leadHelp,
);

/**
 * The steps of the job and what each rests on. Numbers are labels by topic; the order is this list's, and holds the graph: nothing stands before what it
 * rests on. Source: worked out from handbooks, depot manuals and practitioners' accounts; a judgement, not a published graph.
 */

import type { Hazard } from "../ask/findings";
import type { SetDescription } from "../set/describe";
import type { State } from "../standards/cautions";
import { findingById } from "../units/by-id";

export interface Step {
  readonly id: string;
  readonly title: string;
  /** safety outranks everything */
  readonly safety: boolean;
  /** how a person knows that it is done; common practice unless it says otherwise */
  readonly doneWhen: string;
  /** what it wants of the set */
  readonly state: State;
  /** what can hurt there besides B+ and stored charge */
  readonly hazards: readonly [Hazard, ...Hazard[]];
  /** steps that must come first */
  readonly rests: readonly string[];
  /** whether this set has what the step is about; every set, where nothing is said */
  readonly concerns?: (set: SetDescription) => boolean;
}
type Row = readonly [id: string, title: string, doneWhen: string, state: State, rests: string, more?: Partial<Step>];
const row = ([id, title, doneWhen, state, rests, more = {}]: Row): Step => ({
  id,
  title,
  doneWhen,
  state,
  rests: rests === "" ? [] : rests.split(" "),
  safety: false,
  hazards: state === "open-dead" || state === "open-live" ? ["b-plus", "stored-charge"] : ["none"],
  ...more,
});
const line = { safety: true, hazards: ["b-plus", "stored-charge", "line", "live-chassis"] } as const;
const power = { hazards: ["b-plus", "stored-charge", "line", "heat"] } as const;
/** Whether an accessory of a kind is fitted here, or somebody wants it. */
const has =
  (kind: string) =>
  (set: SetDescription): boolean =>
    set.fittings.some((f) => f.kind === kind && f.state !== "offered");
const hasAny = (set: SetDescription): boolean => set.fittings.some((f) => f.state !== "offered");
const stage =
  (kind: string, named = /./) =>
  (set: SetDescription): boolean =>
    set.stages.some((s) => s.kind === kind && named.test(`${s.label} ${s.part}`));

export const steps: readonly Step[] = (
  [
    [
      "01",
      "Intake, identity, the owner's story",
      "photographs all round, the owner's wishes and the limits of the work written down",
      "desk",
      "",
    ],
    [
      "02",
      "Look it over, switched off and unplugged",
      "the page before opening read and signed; no damage found, or all of it listed",
      "open-dead",
      "",
      line,
    ],
    [
      "03",
      "Isolation, cord, fuse, line bypass",
      "chassis proved, cord and fuse decided, bypass of the right class or out, all measured and signed; local code prevails",
      "open-dead",
      "02",
      line,
    ],
    ["04", "Ohms at the supply", "B+ to chassis above 10 kΩ once settled, windings sound", "open-dead", "03", { safety: true }],
    ["05", "Capacitors: which go, which stay", "each one decided; line bypass, output coupling and filter first", "open-dead", "04"],
    ["06", "Resistor survey", "none over 20 % off, dividers within 10 %", "open-dead", "04"],
    [
      "07",
      "Tubes",
      "no shorts, no gas, transconductance above 60 to 70 % of new",
      "open-dead",
      "04",
      { hazards: ["b-plus", "stored-charge", "heat"] },
    ],
    ["11", "Resistance chart", "within 20 %", "open-dead", "04"],
    [
      "31c",
      "The accessory on its own, unplugged: capacitors, ohms, tubes",
      "its series capacitor judged first, then every other; its B+ pin to its case above 100 kΩ once settled; no tube shorted",
      "open-dead",
      "02",
      { concerns: hasAny },
    ],
    [
      "08",
      "First power, limited",
      "no smoke, no glow, current as the type plate says",
      "open-live",
      "02 03 04 05 06 07",
      { ...power, safety: true },
    ],
    ["09", "Supply proved", "B+ within 10 %, heaters within 10 %, ripple as computed within 30 %", "open-live", "08", power],
    ["10", "DC voltage chart", "every node explained, within 20 % of what this meter should read", "open-live", "09"],
    [
      "31d",
      "Feed the accessory: B+ and heaters without it and with it",
      "B+ at its tap within 5 %, heaters within 10 %, transformer rise within 55 K after an hour",
      "open-live",
      "09 31c",
      { ...power, concerns: hasAny },
    ],
    ["12", "Audio and detector", "within 6 dB of the chart", "open-live", "10"],
    ["13", "Signal tracing and stage gain", "each stage within 6 dB of the chart", "open-live", "12"],
    ["14", "Oscillator running on every band", "grid current within 30 % across each band", "open-live", "10"],
    ["15", "AVC line and detector DC", "no positive volts with no signal", "open-live", "10"],
    ["29a", "Crackle and hum hunt, before any IF work", "no crackle that follows the IF", "open-live", "12"],
    ["34a", "Soak, four hours, never left alone", "transformer rise within 40 to 55 K, nothing drifts off", "panel", "09 15 31d"],
    ["16", "Pointer and bandspread index", "within half a millimetre at full mesh", "panel", "02"],
    ["17", "Warm up", "drift under 100 Hz a minute at the working band", "panel", "09"],
    ["18", "Choose the IF centre", "the filter's real centre is known, not just the service sheet's value", "open-live", "13 15"],
    [
      "31a",
      "Wire the accessory's lead at the mixer plate",
      "series capacitor at the plate, connector shrouded, first primary checked before",
      "open-dead",
      "13 31c",
      { concerns: has("q-multiplier") },
    ],
    ["19", "Before the IF: oscillator stopped, BFO off, AVC clamped", "no AVC action left", "open-live", "15 18 31a"],
    ["20", "IF alignment", "-6 dB points equal within 10 % about the centre", "open-live", "15 17 18 19 31a"],
    [
      "21",
      "Crystal filter, phasing, notch",
      "peak within 50 to 100 Hz of the centre",
      "open-live",
      "20",
      { concerns: stage("filter", /crystal/i) },
    ],
    ["22", "BFO centring", "within 100 Hz", "open-live", "20 21", { concerns: stage("bfo") }],
    [
      "28",
      "Crystal marker generator: fit and trim",
      "within 5 ppm at shop temperature",
      "open-live",
      "09 17 31c 31d",
      { concerns: has("marker-generator") },
    ],
    ["30", "Drift and compensation", "after one hour under 1 kHz an hour at 14 MHz", "open-live", "14 17"],
    ["23", "Oscillator alignment, per band", "dial within 0.5 %", "open-live", "14 16 17 20 28 30"],
    ["24", "RF, mixer and antenna tracking", "mid band within 3 dB of peak", "open-live", "23"],
    ["25", "Images: is the oscillator on the right side", "within 6 dB of what the circuits give", "panel", "24"],
    [
      "26",
      "Bandspread calibration",
      "within 2 to 5 kHz at 3.5 to 14 MHz",
      "panel",
      "16 23 24 28",
      { concerns: (set) => set.bands.some((b) => b.spread) },
    ],
    [
      "31b",
      "Set and centre the accessory",
      "gain with and without within 3 dB, -6 dB symmetry kept",
      "panel",
      "20 31a 31d",
      { concerns: has("q-multiplier") },
    ],
    ["32", "Crystal converter", "gain 10 to 20 dB, crystal trimmed", "panel", "24 26 28 31d", { concerns: has("converter") }],
    [
      "31e",
      "Without the accessory and with it: both proved",
      "without it the receiver is as it was before fitting, as far as the readings can tell; with it, changed only as stated",
      "panel",
      "28 31b 31d 32",
      { concerns: hasAny },
    ],
    ["27", "S-meter zero, AVC curve", "within 6 dB", "open-live", "15 20 24 31b 32"],
    ["33a", "Performance: sensitivity", "within 3 dB of the chart, with the ratio stated", "panel", "24 27"],
    ["33b", "Performance: selectivity", "widths at 6, 20, 40 and 60 dB recorded", "panel", "20 21 31b"],
    ["33c", "Performance: image and IF rejection", "recorded per band", "panel", "24 25"],
    ["33g", "Performance: dial error at the marks", "recorded per band", "panel", "23 26"],
    ["29b", "Residual hum", "40 dB under 50 mW", "panel", "12 20 24"],
    [
      "35",
      "Final safety test",
      "bond, insulation, touch current both ways, fuse, strain relief, connectors that carry B+ recessed: all measured after the last work inside",
      "panel",
      "02 03 04 08 11 13 22 27 29a 29b 30 31e 33a 33b 33c 33g 34a",
      line,
    ],
    ["36", "Documents and hand-over", "as found and as left, cards, warnings, next check date", "desk", "01 35"],
  ] satisfies Row[]
).map(row);

export const stepById = findingById(steps);
export const orderOf = (id: string): number => steps.findIndex((s) => s.id === id);
/** Whether this set has what a step is about. */
export const concerns = (id: string, set: SetDescription): boolean => stepById(id)?.concerns?.(set) ?? true;

/** Steps that can kill, in their order. */
const safetySteps = ["02", "03", "04", "08"] as const;
/**
 * Everything that a step rests on, through the steps between.
 * @source the graph above
 */
export function foundationsOf(id: string, into = new Set<string>()): ReadonlySet<string> {
  for (const r of stepById(id)?.rests ?? [])
    if (!into.has(r)) {
      into.add(r);
      foundationsOf(r, into);
    }
  return into;
}
/** Safety steps that must be proved before a step may be: those that it rests on, and the final test before hand-over. */
export const safetyBefore = (id: string): readonly string[] => [...safetySteps, "35"].filter((s) => s !== id && foundationsOf(id).has(s));

/**
 * The steps of the job in the order of work that causes least rework. Numbers are labels by topic; the order is this list's.
 * Source: worked out from handbooks, depot manuals and practitioners' accounts; a judgement, not a published graph. The order was
 * checked in ripple.test.ts: few full redos point backwards, each named there with its reason. The converter stands before the S meter, since
 * fitting it makes that record due on its band.
 */
import type { Hazard } from "../sheets/contract";

export interface Step {
  readonly id: string;
  readonly title: string;
  /** safety outranks everything */
  readonly safety: boolean;
  /** how a person knows that it is done; common practice unless it says otherwise */
  readonly doneWhen: string;
  readonly hazards: readonly [Hazard, ...Hazard[]];
}
const inside = ["b-plus", "stored-charge"] as const;
const step = (id: string, title: string, doneWhen: string, hazards: Step["hazards"] = ["none"], safety = false): Step => ({
  id,
  title,
  safety,
  doneWhen,
  hazards,
});

export const steps: readonly Step[] = [
  step("01", "Intake, identity, the owner's story", "photographs all round, wish and limits of work written down"),
  step("02", "Look it over, power off, plug out", "no damage found or all of it listed", ["line", "stored-charge"], true),
  step(
    "03",
    "Isolation, cord, fuse, line bypass",
    "line to chassis proved open, cord and fuse decided, bypass of the right class or out; local code prevails",
    ["line", "stored-charge", "live-chassis"],
    true,
  ),
  step("04", "Ohms at the supply, power off", "B+ to chassis above 10 to 20 kΩ after charging, windings sound", ["stored-charge"], true),
  step("05", "Capacitors: which go, which stay", "each one decided; line bypass, output coupling and filter first", ["stored-charge"]),
  step("06", "Resistor survey", "none over 20 % off, dividers within 10 %", ["stored-charge"]),
  step("07", "Tubes", "no shorts, no gas, transconductance above 60 to 70 % of new", ["heat"]),
  step("08", "First power, limited", "no smoke, no glow, current as predicted", ["line", "b-plus", "stored-charge", "heat"]),
  step("09", "Supply proved", "B+ within 10 %, heaters within 10 %, ripple as computed within 30 %", [
    "line",
    "b-plus",
    "stored-charge",
    "heat",
  ]),
  step("10", "DC voltage chart", "every node explained, within 20 % of what this meter should read", inside),
  step("11", "Resistance chart", "within 20 %", ["stored-charge"]),
  step("12", "Audio and detector", "within 6 dB of the chart", inside),
  step("13", "Signal tracing and stage gain", "each stage within 6 dB of the chart", inside),
  step("14", "Oscillator alive on every band", "grid current within 30 % across each band", inside),
  step("15", "AVC line and detector DC", "no positive volts with no signal", inside),
  step("29a", "Crackle and hum hunt, before any IF work", "no crackle that follows the IF", inside),
  step("34a", "Soak, four hours", "transformer rise within 40 to 55 K, nothing drifts off", ["line", "b-plus", "heat"]),
  step("16", "Pointer and bandspread index", "within half a millimetre at full mesh"),
  step("17", "Warm up", "drift under 100 Hz a minute at the working band", ["heat"]),
  step("18", "Choose the IF centre", "the filter's real centre is known, not the book's figure", inside),
  step(
    "31a",
    "Wire the accessory's lead at the mixer plate",
    "series capacitor at the plate, connector shrouded, first primary checked before",
    inside,
  ),
  step("19", "Before the IF: oscillator stopped, BFO off, AVC clamped", "no AVC action left", inside),
  step("20", "IF alignment", "-6 dB points equal within 10 % about the centre", inside),
  step("21", "Crystal filter, phasing, notch", "peak within 50 to 100 Hz of the centre", inside),
  step("22", "BFO centring", "within 100 Hz", inside),
  step("28", "Crystal marker generator: fit and trim", "within 5 ppm at shop temperature", inside),
  step("30", "Drift and compensation", "after one hour under 1 kHz an hour at 14 MHz", inside),
  step("23", "Oscillator alignment, per band", "dial within 0.5 %", inside),
  step("24", "RF, mixer and antenna tracking", "mid band within 3 dB of peak", inside),
  step("25", "Images: is the oscillator on its side", "within 6 dB of what the circuits give", inside),
  step("26", "Bandspread calibration", "within 2 to 5 kHz at 3.5 to 14 MHz"),
  step("31b", "Set and centre the accessory", "gain with and without within 3 dB, -6 dB symmetry kept", inside),
  step("32", "Crystal converter", "gain 10 to 20 dB, crystal trimmed", inside),
  step("27", "S-meter zero, AVC curve", "within 6 dB", inside),
  step("33a", "Proof: sensitivity", "within 3 dB of the chart, with the ratio stated", inside),
  step("33b", "Proof: selectivity", "widths at 6, 20, 40 and 60 dB recorded", inside),
  step("33c", "Proof: image and IF rejection", "recorded per band", inside),
  step("33g", "Proof: dial error at the marks", "recorded per band"),
  step("29b", "Residual hum", "40 dB under 50 mW", inside),
  step(
    "35",
    "Final safety test",
    "bond, insulation, touch current both ways, fuse, strain relief, connectors that carry B+ recessed",
    ["line", "b-plus", "stored-charge", "live-chassis"],
    true,
  ),
  step("36", "Documents and hand-over", "as found and as left, cards, warnings, next check date"),
];

export const stepById = (id: string): Step | undefined => steps.find((s) => s.id === id);
export const orderOf = (id: string): number => steps.findIndex((s) => s.id === id);

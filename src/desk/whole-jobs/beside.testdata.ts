import { readAgain } from "../../job/rollups/again";
import { orThrow } from "../../units/issue";
import { exact, type Quantity, type Spread, tolerance } from "../../units/quantity";
import { beatRow } from "../read-in/beat-row";
import { count, type Played, put, stamp } from "./played.testdata";
import { accessories, bandId, stepOf, type World, type WorldFault } from "./world.testdata";

/** Faults of a world beside its stages and supply: the line's side, the strip, the dial, the accessory; where each shows, and how. */
export interface Beside {
  readonly fault: WorldFault;
  readonly place: string;
  /** what the readings show by themselves; nothing where a person notices it first */
  readonly shows?: { readonly id: string; readonly says: RegExp };
  /** the part that is changed, where one is */
  readonly part?: { readonly kind: string; readonly out: string; readonly in: string; readonly rated: string };
  /** the work that is done, where no part is changed */
  readonly work?: string;
  /** what it was */
  readonly cause: string;
}
type Row = (f: WorldFault) => Omit<Beside, "fault">;
const shown = (id: string, says: RegExp) => ({ id, says });
const atBand: Row = (f) => {
  const place = `bands.${bandId(f.at?.replace("range ", "") ?? "")}`;
  const cause = f.fault === "trimmer" ? /the trimmer [\d.]+ % too/ : new RegExp(`the ${f.fault} [\\d.]+ % too|more than one part is off`);
  return { place, shows: shown(place, cause), work: "oscillator-aligned", cause: `the oscillator's ${f.fault}` };
};
const table: Readonly<Record<string, Row>> = {
  lineCapacitorLeak: () => ({
    place: "line",
    shows: shown("line", /^touch current one way .* where .* holds/),
    part: { kind: "line-capacitor", out: "10 nF", in: "1 nF", rated: "" },
    cause: "capacitor from the line to the chassis leaks",
  }),
  liveChassis: () => ({
    place: "line",
    shows: shown("line", /^touch current one way 154 mA/),
    part: { kind: "cord-fuse-switch", out: "cord with a plug of both ways", in: "plug of one way, switch in the other line", rated: "" },
    cause: "the chassis is one side of the line",
  }),
  antennaCapacitorLeak: () => ({
    place: "stages.antenna",
    shows: shown("stages.antenna.capacitor", /moulded paper capacitor of 4\.7 nF \(antenna of a live chassis\)/),
    part: { kind: "antenna-capacitor", out: "4.7 nF", in: "1 nF", rated: "" },
    cause: "capacitor between the live chassis and the antenna leaks",
  }),
  slugsTurned: () => ({ place: "strip", shows: shown("strip", /slugs turned/), work: "if-aligned", cause: "slugs turned" }),
  padder: atBand,
  trimmer: atBand,
  coil: atBand,
  accessoryCapacitor: () => ({
    place: "fittings.qm",
    shows: shown("fittings.qm.capacitors", /8 µF \(filter\) reads 190 nF: dried out/),
    part: { kind: "accessory-capacitor", out: "8 uF", in: "8 uF", rated: "450 V" },
    cause: "decoupling capacitor dried out",
  }),
  accessoryOffCentre: () => ({
    place: "fittings.qm",
    shows: shown("fittings.qm.centre", /it peaks 2\.[34]\d* kHz off the carrier/),
    work: "accessory-set",
    cause: "tank off the IF's centre",
  }),
  markerCrystal: () => ({
    place: "fittings.markers",
    shows: shown("fittings.markers.crystal", /its markers are 1\.\d+ kHz off at 28/),
    work: "markers-trimmed",
    cause: "marker crystal low",
  }),
  converterCrystal: () => ({
    place: "fittings.converter",
    shows: shown("fittings.converter.crystal", /its crystal is 2\.\d+ kHz high/),
    work: "converter-fitted",
    cause: "converter's crystal high",
  }),
  accessoryResistor: () => ({
    place: "stages.a1",
    shows: shown("stages.a1", /by its resistors as marked takes in .* one of plate, screen, cathode resistor/),
    part: { kind: "screen-resistor", out: "68 kohm", in: "68 kohm", rated: "" },
    cause: "screen resistor up",
  }),
};
export const besideOf = (world: World): readonly Beside[] =>
  world.truth.faults.flatMap((fault) => (Object.hasOwn(table, fault.fault) ? [{ fault, ...table[fault.fault](fault) }] : []));

const read = (value: number, spread: Spread = exact): Quantity => ({ value, spread, origin: "measured", source: "read" });
const within = (value: number, part: number): Quantity => read(value, tolerance(part * Math.abs(value)));
function type(job: Played, values: Readonly<Record<string, Quantity>>, before = Object.keys(values).length): void {
  put(job, { kind: "values", values, why: "read" });
  count(job, Object.keys(values).length, before);
}

interface DialTable {
  readonly ranges: readonly { readonly range: string; readonly rows: readonly { readonly signalHz: number; readonly dialHz: number }[] }[];
}
/** What the pointer says at each mark, in a row; as left of the ranges that were worked on. */
export function readDial(world: World, job: Played, when: "found" | "left"): void {
  const { ranges } = stepOf(world, `dial as ${when}`).reads as unknown as DialTable;
  const worked = new Set(job.view.works.map((w) => w.subject));
  for (const r of ranges) {
    const band = bandId(r.range);
    count(job, 0, r.rows.length);
    if (when === "left" && !worked.has(`bands.${band}`)) continue;
    // set at three marks, as trackers are: both ends and the middle
    const rows = when === "found" ? r.rows : [r.rows[0], r.rows[Math.floor(r.rows.length / 2)], r.rows[r.rows.length - 1]];
    const readings = rows.map((x) => x.dialHz / 1e6).join(" ");
    const row = orThrow(beatRow(job.view, { band, setPoint: "", readings, every: "", from: "", approach: "up" }, stamp()));
    const marks = row.beats.map((b) => Math.round(b.hz));
    if (marks.join() !== rows.map((x) => x.signalHz).join())
      throw new Error(`${band}: marks ${marks.join(" ")} are not those that were read`);
    put(job, row.entry);
    count(job, rows.length, 0);
  }
  // a bridge told the gang's ends, which the service sheet has
  if (when === "found") count(job, 0, 2);
}
/** The log of the warm-up, as a file that a person has. */
export function readDrift(world: World, job: Played): void {
  const log = stepOf(world, "drift as left").reads as unknown as { readonly timeMin: number[]; readonly frequencyHz: number[] };
  put(job, {
    kind: "rows",
    path: "drift.driftLog",
    rows: log.timeMin.map((t, i) => ({ time: 60 * t, frequency: log.frequencyHz[i] })),
    why: "log",
  });
}

interface AccessoryReads {
  readonly receiver: Readonly<Record<"heaterWithV" | "secondWithoutV" | "secondWithV" | "lineWithoutV" | "lineWithV", number>>;
  readonly tuning?: { readonly ifCentreHz: number; readonly peakByMeterHz: number };
  readonly beat?: { readonly standardHz: number; readonly bySwellHz: number; readonly markerIs: string };
  readonly dial?: {
    readonly crystalMarkedHz: number;
    readonly receiverDialErrorHz: number;
    readonly rows: readonly { readonly signalHz: number; readonly dialHz: number }[];
  };
  readonly gainDb?: number;
  readonly nodes: readonly { readonly node: string; readonly readV: number }[];
  readonly rows: readonly {
    readonly tube: string;
    readonly electrode: string;
    readonly readV: number;
    readonly meter: string;
    readonly rangeV: number;
  }[];
}
/** A level that gives the usual output without the accessory; with it, so much less as it has gain. */
const levelV = 20e-6;
/** What is read of the accessory and of the receiver with it, as it is typed. */
export function readAccessory(world: World, job: Played, when: "found" | "left"): void {
  const kind = world.set.accessory?.kind;
  if (kind === undefined) return;
  const at = `fittings.${accessories[kind]}`;
  const r = stepOf(world, `accessory as ${when}`).reads as unknown as AccessoryReads;
  // each with its line: B+ is put to one line, as a person does who read both
  const without = stepOf(world, "accessory as found").reads as unknown as AccessoryReads;
  const put1 = without.receiver.lineWithoutV / r.receiver.lineWithV;
  // with the accessory unplugged nothing has changed since: work inside it does not ask for that again
  type(
    job,
    {
      ...(when === "found" ? { [`${at}.tapWithout`]: within(without.receiver.secondWithoutV, 0.02) } : {}),
      [`${at}.tapWith`]: within(r.receiver.secondWithV * put1, 0.02),
      [`${at}.heaterVolts`]: within(r.receiver.heaterWithV, 0.02),
    },
    3,
  );
  if (r.tuning) multiplierRead(job, at, r.tuning, when);
  if (r.beat) markerRead(job, at, r.beat, when);
  if (r.dial) converterRead(job, at, r.dial, r.gainDb ?? 0);
  for (const place of world.set.accessory?.places ?? []) stageRead(world, job, place, r, when);
}
function multiplierRead(job: Played, at: string, tuning: NonNullable<AccessoryReads["tuning"]>, when: "found" | "left"): void {
  const off = tuning.peakByMeterHz - tuning.ifCentreHz;
  // the peak by a meter is found to some 50 Hz
  type(job, { [`${at}.centreBeat`]: read(Math.abs(off), tolerance(70)) });
  put(job, { kind: "fact", path: `${at}.centreSide`, value: off > 0 ? "high" : "low", why: "turned a hair" });
  count(job, 1);
  if (when === "left") return;
  put(job, {
    kind: "form",
    form: "accessory-capacitors",
    fields: {
      "row 1: Accessory": "Q multiplier",
      "row 1: Kind": "electrolytic",
      "row 1: Duty": "filter",
      "row 1: Value": "8 uF",
      "row 1: Measured value": "0.19 uF",
      "row 1: Rated V": "450",
    },
  });
  count(job, 5);
}
function markerRead(job: Played, at: string, beat: NonNullable<AccessoryReads["beat"]>, when: "found" | "left"): void {
  // the station and what the markers are wanted for stand on record
  const known = { [`${at}.stationFrequency`]: read(beat.standardHz), [`${at}.target`]: read(28e6) };
  type(job, { [`${at}.beat`]: read(beat.bySwellHz, tolerance(1)), ...(when === "found" ? known : {}) }, 3);
  put(job, { kind: "fact", path: `${at}.sign`, value: beat.markerIs === "below" ? "markers-low" : "markers-high", why: "trimmer nudged" });
  count(job, 1);
}
function converterRead(job: Played, at: string, dial: NonNullable<AccessoryReads["dial"]>, gainDb: number): void {
  const first = !job.view.kept.has(`${at}.levelWithout`);
  // its crystal is marked: part of its description, as the resistors are
  if (first)
    put(job, { kind: "values", values: { [`${at}.crystal`]: { ...read(dial.crystalMarkedHz), origin: "stated" } }, why: "its marking" });
  type(
    job,
    {
      [`${at}.readsLow`]: read(-dial.receiverDialErrorHz, tolerance(150)),
      [`${at}.levelWith`]: read(levelV * 10 ** (-gainDb / 20)),
      ...(first ? { [`${at}.wantedLow`]: read(21e6), [`${at}.wantedHigh`]: read(21.5e6) } : {}),
      ...(first ? { [`${at}.levelWithout`]: read(levelV), [`${at}.levelDoubt`]: read(0, tolerance(1.5)) } : {}),
    },
    8,
  );
  // a crystal moves all signals alike: once it is trimmed two of them prove it
  const rows = first ? dial.rows : [dial.rows[0], dial.rows[dial.rows.length - 1]];
  put(job, {
    kind: "rows",
    path: `${at}.converterHeard`,
    rows: rows.map((x) => ({ signal: x.signalHz, dial: x.dialHz })),
    why: "markers through the converter",
  });
  // the same signals again: only what the dial says is typed over
  count(job, (first ? 2 : 1) * rows.length, 2 * dial.rows.length);
}
/** The volts of one of its tubes, on the voltage chart as the set's own. */
function stageRead(world: World, job: Played, place: string, r: AccessoryReads, when: "found" | "left"): void {
  const own = r.rows.filter((x) => x.tube === place);
  const marked = world.set.marked[place];
  const feed = r.nodes.find((n) => n.node === `${place} feed node`)?.readV;
  if (when === "found") {
    const ohms = [
      ["plateFeed", marked.plateOhm],
      ["screenFeed", marked.screenOhm],
      ["cathodeResistor", marked.cathodeOhm],
      ["gridResistor", marked.gridOhm],
    ].flatMap(([name, ohm]) =>
      typeof ohm === "number" ? [[`stages.${place.toLowerCase()}.${name}`, { ...within(ohm, 0.1), origin: "stated" as const }]] : [],
    );
    put(job, { kind: "values", values: Object.fromEntries(ohms), why: "its diagram" });
  }
  // what feeds a stage is read where one of its own volts is off: the stage that has a bad part
  const isBad = world.truth.faults.some((f) => f.at === place && f.fault === "accessoryResistor");
  count(job, 0, own.length + (feed === undefined ? 0 : 1));
  if (feed !== undefined && isBad) type(job, { [`stages.${place.toLowerCase()}.supply`]: within(feed, 0.03) }, 0);
  const first = 60 + 10 * Number(place.slice(1));
  const again = readAgain(job.view, "voltage-chart");
  const rows = own.flatMap((x, i) => (when === "found" || again.has(`row ${first + i}: Measured V`) ? [[x, first + i] as const] : []));
  if (rows.length === 0) return;
  put(job, {
    kind: "form",
    form: "voltage-chart",
    fields: Object.fromEntries(
      rows.flatMap(([x, n]) => [
        [`row ${n}: Tube`, place],
        [`row ${n}: Electrode`, x.electrode],
        [`row ${n}: Measured V`, String(x.readV)],
      ]),
    ),
  });
  count(job, rows.length, 0);
}

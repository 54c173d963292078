import { admit } from "../../job/admit";
import type { JobDocument, Reading } from "../../job/document";
import { formatVersion } from "../../job/format";
import { readAgain } from "../../job/rollups/again";
import { carriedOnto, satDown } from "../../job/sitting";
import { type JobView, viewOf } from "../../job/view";
import type { Stamp } from "../../job/works";
import { orThrow } from "../../units/issue";
import { exact, type Quantity } from "../../units/quantity";
import { signing } from "../fill-down";
import { writtenNumbers } from "../read-in/numbers";
import { readNumbersIn } from "../read-in/read-in";
import { type ChartRead, setOf, sheet, stepOf, type World, type WorldFault } from "./world.testdata";

/** Ranges of the invented meter, V. */
const meterRangesV = [2.5, 10, 50, 250, 500, 1000];
let tick = 0;
let away = 0;
/** Entries some seconds apart, ids that count. */
export const stamp = (): Stamp => ({
  at: new Date(Date.UTC(2026, 4, 1) + 10e3 * ++tick + away).toISOString(),
  who: "player",
  newId: () => `w${++tick}`,
});

/** A job that is played: everything goes through the one gate, and what a person types is counted. */
export interface Played {
  view: JobView;
  /** values that a person typed */
  typed: number;
  /** what the same job took where each cell of a card was typed, nothing was carried on, and all was read again as left */
  before: number;
}
/** Counts what is typed now, and what it was before. */
export function count(job: Played, typed: number, before = typed): void {
  job.typed += typed;
  job.before += before;
}
/** The person, the meter and its ranges, the one for grids: said once. */
export function sitDown(job: Played): void {
  const meter = `20 kohm/V, ranges ${meterRangesV.join(" ")}`;
  put(job, { kind: "sitting", initials: "JM", meter, gridMeter: "11 Mohm", method: "", thermal: "warm" });
  count(job, 3, 0);
}
/** A week later, as a person sits down again: only the line of the day is said, on the chart it would have been as well. */
export function sitAgain(world: World, job: Played): void {
  const last = world.steps.find((s) => s.step === (world.set.accessory ? "accessory as left" : "voltage chart as left"));
  const lineV = Number(last?.reads.lineV);
  away += 7 * 24 * 3.6e6;
  const line = { value: lineV, spread: exact, origin: "measured" as const, source: "read at the outlet" };
  const said = orThrow(satDown(job.view, "player", { initials: "", meter: "", method: "", thermal: "warm", line }));
  put(job, { kind: "sitting", ...said });
  // before: line and meter in the cells of a chart that is read once more, as at every reading of it
  count(job, 1, world.set.accessory ? 2 : 1);
}
/** Records as every face does, through the gate. */
export function put(job: Played, ...entries: readonly Record<string, unknown>[]): void {
  const { at, who, newId } = stamp();
  const made = entries.map((e) => ({ at, who, id: newId(), ...e }));
  const admitted = orThrow(admit(job.view, made)).map((e) => carriedOnto(job.view, e));
  job.view = viewOf({ ...job.view.document, entries: [...job.view.document.entries, ...admitted] });
}
/** A job whose set was described from its service sheet: line-up and chart are pasted, not typed. */
export function begin(world: World): Played {
  const document: JobDocument = {
    format: "fettle-job",
    version: formatVersion,
    id: "j",
    name: world.id,
    created: "2026-05-01T00:00:00Z",
    set: setOf(world),
    entries: [],
  };
  const job: Played = { view: viewOf(document), typed: 0, before: 0 };
  const values: Record<string, Quantity> = {};
  for (const [socket, m] of Object.entries(world.set.marked)) {
    const at = `stages.${socket.toLowerCase()}`;
    if (!job.view.set.stages.some((s) => `stages.${s.id}` === at)) continue;
    const give = (name: string, ohm: unknown): void => {
      if (typeof ohm === "number") values[`${at}.${name}`] = sheet(ohm, 0.1);
    };
    give("plateFeed", typeof m.feedOhm === "number" && typeof m.plateOhm === "number" ? m.feedOhm + m.plateOhm : m.plateOhm);
    give("decouplingFeed", m.feedOhm ?? 0);
    give("screenFeed", m.screenOhm);
    give("cathodeResistor", m.cathodeOhm);
    give("gridResistor", m.gridOhm);
  }
  const s = world.set.supply;
  const supply = (name: string, value: unknown, part: number): void => {
    if (typeof value === "number") values[`supplies.${name}`] = sheet(value, part);
  };
  supply("secondaryVoltage", s.halfV, 0.02);
  supply("firstCapacitance", s.c1F, 0.2);
  supply("secondCapacitance", s.c2F, 0.2);
  supply("firstResistance", s.chokeOhm, 0.1);
  supply("bleeder", s.bleedOhm, 0.1);
  const gang = world.set.gang.capacitanceF;
  for (const b of job.view.set.bands) {
    values[`bands.${b.id}.gangLow`] = sheet(Math.min(...gang), 0.01);
    values[`bands.${b.id}.gangHigh`] = sheet(Math.max(...gang), 0.01);
  }
  put(job, { kind: "values", values, why: "service sheet" });
  const chart = chartOf(world, "found");
  put(job, {
    kind: "form",
    form: "voltage-chart",
    fields: {
      "Chart's meter and line": `${world.set.chartMeter}, ${world.set.lineV} V`,
      ...Object.fromEntries(
        chart.flatMap((r, i) => [
          [`row ${i + 1}: Tube`, r.tube],
          [`row ${i + 1}: Electrode`, r.electrode],
          [`row ${i + 1}: Chart V`, String(r.chartV)],
          ...(r.sourceOhm > 0 ? [[`row ${i + 1}: Source Ω if known`, String(Math.round(r.sourceOhm))]] : []),
        ]),
      ),
    },
  });
  return job;
}
/** What a chart's reading is worth at the first capacitor: the rectifier's row. */
function atSupply(world: World, when: "found" | "left"): ChartRead {
  const { firstV, chartFirstV } = stepOf(world, `supply as ${when}`).reads as unknown as {
    readonly firstV: number;
    readonly chartFirstV: number;
  };
  const tube = world.set.lineUp.find((t) => /rectifier/.test(t.duty))?.place ?? "";
  return { tube, electrode: "B+", chartV: chartFirstV, sourceOhm: 0, readV: firstV, meter: "20 kohm/V", rangeV: 500 };
}
function atHeater(world: World, when: "found" | "left"): readonly ChartRead[] {
  const { heaterV } = stepOf(world, `supply as ${when}`).reads as unknown as { readonly heaterV?: number };
  return heaterV === undefined
    ? []
    : [{ tube: world.set.lineUp[0].place, electrode: "heater", chartV: 6.3, sourceOhm: 0, readV: heaterV, meter: "20 kohm/V", rangeV: 10 }];
}
/** Rows of the chart as it was read, the supply's own and a heater last. */
export const chartOf = (world: World, when: "found" | "left"): readonly ChartRead[] => [
  ...(stepOf(world, `voltage chart as ${when}`).reads.rows ?? []),
  atSupply(world, when),
  ...atHeater(world, when),
];
/** Volts read, as they are typed down the column: one figure a row; as left those that work since can have changed. A range stands beside it where the meter stood on another than the lowest that holds it. */
export function readChart(world: World, job: Played, when: "found" | "left"): void {
  const rows = chartOf(world, when);
  const { lineV } = stepOf(world, `voltage chart as ${when}`).reads as unknown as { readonly lineV: number };
  const order = chartOf(world, "found");
  const again = readAgain(job.view, "voltage-chart");
  const fields: Record<string, string> = { "Line volts": `${lineV} V` };
  count(job, 1, 2);
  for (const r of rows) {
    const n = order.findIndex((c) => c.tube === r.tube && c.electrode === r.electrode) + 1;
    if (n === 0) continue;
    // before: tube, electrode, chart's volts, ohms of the node, volts read; as left every one of them
    count(job, 0, when === "found" ? 5 : 1);
    const field = `row ${n}: Measured V`;
    if (when === "left" && !again.has(field)) continue;
    fields[field] = String(r.readV);
    count(job, 1, 0);
    if (!/ohm\/V/.test(r.meter) || r.rangeV === meterRangesV.find((v) => v > Math.abs(r.readV))) continue;
    fields[`row ${n}: Range V`] = String(r.rangeV);
    count(job, 1, 0);
  }
  // B+ at the rectifier and the line stand on the chart: the question on the supply takes them from there
  if (when === "found") count(job, 0, 2);
  put(job, { kind: "form", form: "voltage-chart", fields });
}
/** The tests of the question on a stage, as this world answers them: those that its fault's own follow-ups hold. */
export function testsOf(f: WorldFault): string {
  const read = (test: string, at: string): number | undefined => {
    const r = f.followUps.find((x) => x.test === test && x.at === at)?.reads;
    return typeof r === "number" ? r : undefined;
  };
  const plate = read("plateLoad", "plateOhm");
  const rows = [
    ["cathode-ohm", read("cathodeToChassis", "cathode"), "ohm"],
    ["screen-ohm", read("screenResistor", "screenOhm"), "ohm"],
    ["plate-ohm", plate === undefined ? undefined : plate + (read("feedResistor", "feedOhm") ?? 0), "ohm"],
    ["decoupling-lifted", read("liftDecoupling", "plate"), "V"],
    ["grid-lifted", read("liftCoupling", "grid"), "V"],
    ["grid-new-tube", read("swapTube", "grid"), "V"],
    ["cathode-new-tube", read("swapTube", "cathode"), "V"],
  ] as const;
  return rows
    .flatMap(([test, v, unit]) => (v === undefined ? [] : [unit === "ohm" ? `${test}, ${v} ohm` : `${test}, , ${v} V`]))
    .join("; ");
}
interface SafetyRead {
  readonly lineV: number;
  readonly rows: readonly { readonly point: string; readonly touchA: number; readonly canBeTouched?: boolean }[];
  readonly insulationOhm?: number;
  readonly groundBondOhm?: number;
  readonly cord?: string;
  readonly fuse?: string;
}
/** The card of the safety test as it is written from what was read; what nobody read stays blank. */
export function readSafety(world: World, job: Played, when: "found" | "left"): void {
  const reads = stepOf(world, `safety as ${when}`).reads as unknown as SafetyRead;
  const touchable = reads.rows.filter((r) => r.canBeTouched !== false).map((r) => 1e3 * r.touchA);
  const most = Math.max(...touchable).toPrecision(3);
  const card: Record<string, string> = {
    "Touch current one way, mA": most,
    "Touch current other way, mA": most,
  };
  if (reads.insulationOhm !== undefined) card["Insulation line to chassis, MΩ"] = (reads.insulationOhm / 1e6).toPrecision(3);
  if (reads.groundBondOhm !== undefined) card["Bond, Ω"] = String(reads.groundBondOhm);
  if (reads.cord) card["Cord type"] = reads.cord;
  if (reads.fuse) card["Fuse rating and type"] = reads.fuse;
  const whole = { ...card, ...beforeHandOver };
  if (!world.set.liveChassis && reads.insulationOhm !== undefined) {
    const ohms = { value: reads.insulationOhm, spread: exact, origin: "measured", source: "insulation tester" };
    put(job, {
      kind: "chassis",
      state: "isolated",
      evidence: { ohms },
      meter: "insulation tester, 500 V",
      how: "each blade of the plug to the chassis",
      transformer: "",
      confirmed: true,
    });
  }
  // coming in there is nothing to say yet of what is only done for hand-over
  const [form, fields]: [string, Record<string, string>] = when === "found" ? ["safety-in", { ...card, ...tester }] : ["safety-out", whole];
  const sign = orThrow(signing(job.view, form, stamp().at));
  // on another day the tester is said again
  const said = "Tester used" in fields || "Tester used" in sign ? fields : { ...fields, ...tester };
  put(job, { kind: "form", form, fields: { ...sign, ...said } });
  count(job, Object.keys(said).length, Object.keys(whole).length + 2);
}
const tester = { "Tester used": "touch current network of 1500 ohm, insulation tester 500 V" };
const beforeHandOver = {
  "Line bypass parts and class": "Y2",
  "Strain relief": "yes",
  "Knob screws covered": "yes",
  "Connectors with B+ recessed": "none",
  "Volts left after 10 s, V": "5",
};
/** A sweep of the IF, read in as the file that a person has. */
export function readSweep(world: World, job: Played, when: "found" | "left"): Reading {
  const reads = stepOf(world, `IF sweep as ${when}`).reads as unknown as { readonly frequencyHz: number[]; readonly outputDb: number[] };
  const csv = `frequency Hz,level dB\n${reads.frequencyHz.map((f, i) => `${f},${reads.outputDb[i]}`).join("\n")}\n`;
  const file = { name: `sweep-${when}.csv`, bytes: new TextEncoder().encode(csv) };
  const how = { as: "if-sweep", state: when === "found" ? "as-found" : "as-left" } as const;
  const numbers = orThrow(writtenNumbers(file.bytes, file.name, how));
  const r = orThrow(readNumbersIn(job.view, { ...file, numbers }, how, stamp()));
  put(job, ...r.entries);
  return r.reading;
}

import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { stageFromChart } from "../src/infer/stage/from-chart";
import { rankCauses } from "../src/infer/stage/rank-causes";
import { lawFrom, type Node, type Stage } from "../src/physics/tube-stage";
import { rangeFor } from "../src/standards/meters";
import { tubePointOf } from "../src/standards/receiving-tubes";

/** One stage of the worlds in samples/worlds, made in another language from first principles, with its truth. */
interface WorldStage {
  readonly kind: string;
  readonly tube: string;
  readonly marked: Readonly<Record<string, number>>;
  readonly nominalLineV: number;
  readonly lineV: number;
  readonly chart: Readonly<Record<string, { readonly volts: number; readonly meterOhm: number }>>;
  readonly measured: Readonly<Record<string, { readonly volts: number; readonly meterOhm: number }>>;
  readonly meter: string;
  readonly truth: { readonly fault: string | null };
}
/** A tube of the table for each of theirs: of the kind, not the same. */
const types: Readonly<Record<string, string>> = {
  "high-mu triode": "12AX7",
  "medium-mu triode": "12AU7",
  "sharp-cutoff RF pentode": "6AU6",
  "remote-cutoff RF pentode": "6BA6",
  "output pentode": "6AQ5",
};
const causes: Readonly<Record<string, readonly string[]>> = {
  couplingLeak: ["coupling-leaky"],
  gasCurrent: ["tube-gassy"],
  screenBypassLeak: ["screen-bypass-leaky"],
  screenResistorDrift: ["screen-resistor-drifted", "screen-resistor-open"],
  cathodeResistorDrift: ["cathode-resistor-drifted", "cathode-open"],
  cathodeBypassLeak: ["cathode-bypass-shorted"],
  plateLoadDrift: ["plate-feed-drifted", "plate-open"],
  weakTube: ["weak-tube", "dead-tube"],
};
const names: Readonly<Partial<Record<Node, string>>> = {
  supply: "bplus",
  plate: "plate",
  screen: "screen",
  cathode: "cathode",
  grid: "grid",
};
const voltsOf = (of: WorldStage["chart"], at: readonly Node[]): Partial<Record<Node, number>> =>
  Object.fromEntries(at.flatMap((n) => (of[names[n] ?? ""] === undefined ? [] : [[n, of[names[n] ?? ""].volts]])));
/** What is usual of such a stage where nobody wrote its ohms. */
const usual = (kind: string): readonly [plateOhm: number, screenOhm: number] =>
  /voltage/.test(kind) ? [220e3, 1e6] : /output/.test(kind) ? [400, 100] : [2200, 33e3];

function rankWorld(s: WorldStage, ohmsKnown: boolean) {
  const p = tubePointOf(types[s.tube])!;
  const [plateOhm, screenOhm] = ohmsKnown ? [s.marked.plateOhm, s.marked.screenOhm ?? 1] : usual(s.kind);
  const begin: Stage = {
    tube: lawFrom(p),
    supplyV: s.chart.bplus.volts,
    plateOhm,
    screenOhm,
    cathodeOhm: ohmsKnown ? s.marked.cathodeOhm : p.cathodeOhm,
    gridOhm: s.marked.gridOhm,
    ...{ returnV: 0, screenLeak: 0, cathodeLeak: 0, couplingLeak: 0 },
    beforeV: s.chart.prevPlate && s.chart.prevPlate.volts > 5 ? s.chart.prevPlate.volts : s.chart.bplus.volts,
  };
  const known = { supplyV: true, ...(ohmsKnown ? { plateOhm: true, screenOhm: true, cathodeOhm: true } : {}) };
  const chart = voltsOf(s.chart, ["supply", "plate", "screen", "cathode"]);
  const { stage, doubt } = stageFromChart(begin, known, {
    volts: chart,
    meterOf: (_, n) => 1 / s.chart[names[n] ?? "plate"].meterOhm,
  });
  const line = s.lineV / s.nominalLineV;
  const meterOf = (v: number): number => 1 / (/11 M/.test(s.meter) ? 11e6 : 20e3 * rangeFor(v));
  const volts = voltsOf(s.measured, ["supply", "plate", "screen", "cathode", "grid"]);
  return rankCauses(
    { ...stage, supplyV: stage.supplyV * line, beforeV: stage.beforeV * line },
    { volts, meterOf, meterShare: 0.015, meterFloorV: 0.02, tests: {} },
    { resistor: 0.2 / Math.sqrt(3), tube: 0.15, supply: 0.05, chart: doubt(meterOf) },
    {
      ...(s.kind === "IF amplifier" ? {} : { "avc-bypass-leaky": 0, oscillating: 0.1, "return-positive": 0.05 }),
      ...((volts.grid ?? 0) > 0.3 ? { "none-visible": 0 } : {}),
    },
  );
}
/** The worlds' stages as a table; nothing where the samples are not there. */
export function worldTables(): string[] {
  const file = join("samples", "worlds", "stages.json");
  if (!existsSync(file)) return [];
  const { stages } = JSON.parse(readFileSync(file, "utf8")) as { readonly stages: readonly WorldStage[] };
  const rows = [true, false].map((ohmsKnown) => {
    let [sound, soundOf, first, tied, hidden, faulty] = [0, 0, 0, 0, 0, 0];
    for (const s of stages) {
      const r = rankWorld(s, ohmsKnown);
      if (!r) continue;
      const none = r.explained && r.causes[0].fault.id === "none-visible";
      if (s.truth.fault === null) {
        soundOf++;
        if (none) sound++;
        continue;
      }
      faulty++;
      const own = causes[s.truth.fault] ?? [];
      if (own.includes(r.causes[0].fault.id)) first++;
      else if (r.ties.some((c) => own.includes(c.fault.id))) tied++;
      else if (none) hidden++;
    }
    return `| ${ohmsKnown ? "as marked on the parts" : "not known"} | ${sound} of ${soundOf} | ${first} of ${faulty} | ${tied} | ${hidden} | ${faulty - first - tied - hidden} |`;
  });
  return [
    "Stages of samples/worlds, made apart in another language: other tube laws, other designs, screens with a bleeder that the ranking knows nothing of, charts by a meter of 1 kohm/V. The tube told is one of the table of the same kind, not the same.",
    "",
    "| ohms | sound ones called so | fault first | fault in the tie | hidden: no fault visible | missed |",
    "| --- | --- | --- | --- | --- | --- |",
    ...rows,
    "",
  ];
}

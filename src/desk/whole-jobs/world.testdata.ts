import type { SetDescription } from "../../set/describe";
import { plannedConverter, stage } from "../../set/patterns/build";
import { patternById } from "../../set/patterns/kinds";
import type { StageKind } from "../../set/words";
import { exact, type Quantity, tolerance } from "../../units/quantity";

/** A whole job as the models in samples/worlds wrote it: what is read, step by step, and what is behind it. */
export interface World {
  readonly id: string;
  readonly set: {
    readonly words: string;
    readonly lineV: number;
    readonly lineHz: number;
    readonly ifHz: number;
    readonly liveChassis: boolean;
    readonly lineUp: readonly { readonly place: string; readonly kind: string; readonly duty: string }[];
    readonly marked: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
    readonly supply: Readonly<Record<string, number | boolean>>;
    readonly inputW: number;
    readonly chartMeter: string;
    readonly ranges: Readonly<Record<string, { readonly rangeHz: readonly [number, number] }>>;
    readonly gang: { readonly capacitanceF: readonly number[] };
    readonly ifCans: readonly { readonly primaryQ: number; readonly secondaryQ: number; readonly kq: number }[];
    readonly accessory: { readonly kind: string; readonly places: readonly string[] } | null;
  };
  readonly truth: {
    readonly faults: readonly WorldFault[];
    readonly figures: readonly { readonly n: number; readonly name: string; readonly value: number; readonly unit: string }[];
  };
  readonly steps: readonly WorldStep[];
}
export interface WorldFault {
  readonly id: string;
  readonly fault: string;
  readonly at?: string;
  readonly to?: string;
  readonly off?: number;
  readonly rivals: readonly string[];
  readonly settledBy: string;
  readonly followUps: readonly { readonly test: string; readonly at: string; readonly reads: unknown }[];
}
export interface ChartRead {
  readonly tube: string;
  readonly electrode: string;
  readonly chartV: number;
  readonly sourceOhm: number;
  readonly readV: number;
  readonly meter: string;
  readonly rangeV: number;
}
export interface WorldStep {
  readonly n: number;
  readonly step: string;
  readonly phase: string;
  readonly reads: Readonly<Record<string, unknown>> & { readonly rows?: readonly ChartRead[] };
}

const kinds: readonly (readonly [RegExp, StageKind])[] = [
  [/^RF/, "rf"],
  [/^(mixer|converter)/, "mixer"],
  [/^oscillator/, "oscillator"],
  [/IF amplifier/, "if-tube"],
  [/detector/, "detector"],
  [/^(first AF|output)/, "audio"],
  [/^BFO/, "bfo"],
  [/^rectifier/, "supply"],
];
const types: readonly (readonly [RegExp, string])[] = [
  [/^remote-cutoff RF pentode/, "6BA6"],
  [/^pentagrid|^triode-hexode/, "6BE6"],
  [/^medium-mu triode/, "6C4"],
  [/high-mu triode/, "6AT6"],
  [/^output pentode/, "6AQ5"],
  [/^sharp-cutoff/, "6AU6"],
  [/^double diode/, "6AL5"],
  [/^full-wave rectifier, directly/, "5Y3"],
  [/^full-wave/, "5V4"],
];
const found = (list: readonly (readonly [RegExp, string])[], text: string, or: string): string =>
  list.find(([r]) => r.test(text))?.[1] ?? or;
export const sheet = (value: number, part = 0): Quantity => ({
  value,
  spread: part > 0 ? tolerance(part * value) : exact,
  origin: "stated",
  source: "service sheet, invented",
});
/** The accessory's kind and id, by the worlds' word for it. */
export const accessories: Readonly<Record<string, string>> = {
  "Q multiplier": "qm",
  "marker generator": "markers",
  "crystal converter": "converter",
};
export const bandId = (range: string): string => range.toLowerCase().replaceAll(" ", "-");
export const stageOf = (socket: string): string => socket.toLowerCase();

/** The strip by its service sheet: its IF, and each can's Q and coupling, within a tenth. */
function stripOf(base: SetDescription["strip"], w: World["set"]): SetDescription["strip"] {
  return {
    ...base,
    intermediateFrequency: sheet(w.ifHz),
    filter: null,
    cans: w.ifCans.map((c, i) => {
      const like = base.cans[Math.min(i, base.cans.length - 1)];
      const k = c.kq / Math.sqrt(c.primaryQ * c.secondaryQ);
      return {
        ...like,
        label: `T${i + 1}`,
        primaryQ: sheet(c.primaryQ, 0.1),
        secondaryQ: sheet(c.secondaryQ, 0.1),
        coupling: sheet(k, 0.1),
        loadResistance: sheet(1e9),
      };
    }),
  };
}
/** The set as its service sheet tells: line-up, supply, ranges; its strip and fittings as usual for the kind. */
export function setOf({ id, set: w }: World): SetDescription {
  const base = structuredClone(
    patternById(w.liveChassis ? "five-tube-live" : "nine-tube-bandspread") ?? patternById("nine-tube-bandspread")!,
  );
  const tubes = w.lineUp.map((t) => ({
    socket: t.place,
    type: found(types, t.kind, "not stated"),
    function: t.duty,
    stage: stageOf(t.place),
  }));
  const own = w.accessory?.places ?? [];
  const fitted = w.accessory ? accessories[w.accessory.kind] : undefined;
  return {
    ...base,
    strip: stripOf(base.strip, w),
    fittings: [...base.fittings.filter((f) => f.id !== "converter"), structuredClone(plannedConverter)].map((f) => ({
      ...f,
      state: f.id === fitted ? ("set" as const) : ("offered" as const),
    })),
    title: id,
    note: "INVENTED",
    pattern: id,
    chassis: { state: w.liveChassis ? "live" : "isolated", isolation: "none", note: "" },
    line: { voltage: sheet(w.lineV), frequency: sheet(w.lineHz), highRatio: base.line.highRatio },
    plateWatts: sheet(w.inputW, 0.1),
    stages: [
      ...base.stages.filter((s) => ["antenna", "can", "filter", "speaker"].includes(s.kind)),
      ...w.lineUp.map((t) => stage(stageOf(t.place), found(kinds, t.duty, "audio") as StageKind, t.duty, "")),
      ...own.map((place) => stage(stageOf(place), "accessory", `${w.accessory?.kind}, ${place}`, "")),
    ],
    // the worlds don't name an accessory's types: a sharp-cutoff pentode and a double triode are the usual ones
    tubes: [
      ...tubes,
      ...own.map((place) => ({
        socket: place,
        type: fitted === "qm" ? "12AX7" : "6AU6",
        function: `${w.accessory?.kind}, ${place}`,
        stage: stageOf(place),
      })),
    ],
    bands: Object.entries(w.ranges).map(([name, r]) => ({
      ...base.bands[0],
      id: bandId(name),
      label: `range ${name}`,
      low: sheet(r.rangeHz[0]),
      high: sheet(r.rangeHz[1]),
      spread: false,
    })),
  };
}

export const stepOf = (world: World, name: string): WorldStep => {
  const s = world.steps.find((x) => x.step === name);
  if (!s) throw new Error(`${world.id} has no step ${name}`);
  return s;
};

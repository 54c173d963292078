import { dimensionOf } from "../units/dimensions";
import { bad, good, type Issue, type Read } from "../units/issue";
import { parseQuantity } from "../units/parse";
import { type Quantity, tolerance } from "../units/quantity";
import type { SetDescription } from "./describe";
import { type OutlineField, outlineFields } from "./outline-fields";
import { linesOf, noType, orders, readTubes, type Stages } from "./outline-tubes";
import { build, node, stage } from "./patterns/build";
import { can, ladderFilter } from "./patterns/strips";
import type { DescribedStrip } from "./strip";

/** Longest text of a field: bands and tubes of the largest set, one a line, are well below. */
const longestText = 4000;
/** What was typed, by field. */
export type Outline = Readonly<Record<string, string>>;

/**
 * A set from what a person typed about it. Fields left empty are assumed; cans, strays and tolerances are typical of the kind, and marked so.
 *
 * @param outline texts by the id of the field, as the trade writes values
 * @returns the description, or every located issue
 * @source house format; typical values are invented
 */
export function setFromOutline(outline: Outline): Read<SetDescription> {
  const issues: Issue[] = [];
  const take = <T>(r: Read<T>): T | undefined => {
    if (!r.ok) issues.push(...r.issues);
    return r.ok ? r.value : undefined;
  };
  for (const name of Object.keys(outline))
    if (!outlineFields.some((f) => f.id === name)) take(bad(name, "no-field", name, `one of ${outlineFields.map((f) => f.id).join(", ")}`));
  for (const [name, said] of Object.entries(outline))
    if (said.length > longestText) return bad(name, "too-long", said, `at most ${longestText} characters`);
  const said = (id: string): string => outline[id]?.trim() ?? "";
  const text = (id: string): string => {
    const field = fieldOf(id);
    const value = said(id) || field.assumed;
    if (field.options && !field.options.some((o) => o.id === value))
      take(bad(id, "not-an-option", value, `one of ${field.options.map((o) => o.id).join(", ")}`));
    return value;
  };
  const quantity = (id: string): Quantity => take(readQuantity(fieldOf(id), said(id))) ?? missing;

  const [lineVoltage, lineFrequency, watts, secondary, plate, ifHz] = [
    "lineVoltage",
    "lineFrequency",
    "watts",
    "secondaryVoltage",
    "mixerPlate",
    "intermediateFrequency",
  ].map(quantity);
  const [canCount, rfCount] = [text("cans"), text("rfStages")];
  const [filter, bfo, two] = [text("filter") === "yes", text("bfo") === "yes", text("conversions") === "2"];
  const [title, chassis, rectifier, quality] = ["title", "chassis", "rectifier", "canQuality"].map(text);
  // counts are looped over below: what is not on offer stops here
  if (issues.some((i) => ["cans", "rfStages"].includes(i.path))) return { ok: false, issues };
  const [cans, rf] = [Number(canCount), Number(rfCount)];
  const bands = take(readBands(text("bands"))) ?? [];
  const all = stagesOf({ cans, rf, filter, bfo, two });
  const { stages, tubes } = take(readTubes(said("tubes"), all)) ?? { stages: all, tubes: [] };
  const withTubes = stages.map((s) => {
    const own = tubes.filter(([, type, , at]) => at === s.id && type !== noType).map(([socket, type]) => `${socket} ${type}`);
    return own.length > 0 ? { ...s, part: own.join(", ") } : s;
  });
  if (issues.length > 0) return { ok: false, issues };
  const set = build({
    pattern: "described",
    title,
    note: "Described by its owner or restorer from nothing. What was not typed in is assumed, typical of the kind, and marked so.",
    live: chassis === "live",
    lineV: lineVoltage.value,
    lineHz: lineFrequency.value,
    watts: watts.value,
    rectifier,
    rectifierType: /silicon/.test(rectifier) ? "silicon" : chassis === "live" ? "35W4 or 35Z5" : "5Y3GT or 80",
    secondaryV: secondary.value,
    nodes: [
      { ...node("b1", "first filter capacitor", secondary.value * 1.15) },
      { ...node("b2", "plates", plate.value), volts: plate },
      { ...node("b3", "screens", plate.value * 0.4) },
    ],
    stages: withTubes,
    strip: stripOf(cans, quality, filter, ifHz),
    trimmerF: 0,
    bands,
    tubes,
    mixerNode: "b2",
  });
  return good({
    ...set,
    chassis:
      chassis === "unstated"
        ? { state: "unstated", isolation: "none", note: "not known yet: it counts as live until it is stated and proved" }
        : set.chassis,
    line: { ...set.line, voltage: lineVoltage, frequency: lineFrequency },
    plateWatts: said("watts") === "" ? set.plateWatts : watts,
    supplies: { ...set.supplies, secondaryVoltage: said("secondaryVoltage") === "" ? set.supplies.secondaryVoltage : secondary },
  });
}

const fieldOf = (id: string): OutlineField => outlineFields.find((f) => f.id === id)!;
const missing: Quantity = { value: 1, spread: { shape: "exact" }, origin: "assumed", source: "" };
const typed = "typed in when the set was described";

function readQuantity(field: OutlineField, said: string): Read<Quantity> {
  const dimension = field.dimension!;
  const r = parseQuantity(said || field.assumed, dimension, field.id);
  if (!r.ok) return r;
  const { value, spread } = r.value;
  const { si, examples } = dimensionOf(dimension);
  if (value < (field.min ?? -Infinity) || value > (field.max ?? Infinity))
    return bad(field.id, "out-of-range", said, `${field.min} to ${field.max} ${si}, such as ${examples}`);
  return good(
    said === ""
      ? { value, spread: { shape: "rectangular", half: value * 0.1 }, origin: "assumed", source: "typical of the kind, invented" }
      : { value, spread, origin: "stated", source: typed },
  );
}

function readBands(text: string): Read<SetDescription["bands"]> {
  const out: SetDescription["bands"] = [];
  for (const [line, said] of linesOf(text)) {
    const path = `bands line ${line}`;
    const m = /^([\d.,]+)\s*([a-z/]*)\s*(?:-|–|to)\s*([\d.,]+)\s*([a-z/]+)\s*(.*)$/i.exec(said);
    if (!m) return bad(path, "not-a-band", said, "from - to with a unit, such as 1.5 - 4.3 MHz or 7 - 7.3 MHz spread");
    const words = m[5]
      .toLowerCase()
      .split(/[\s,]+/)
      .filter(Boolean);
    const strange = words.find((w) => !["spread", "bandspread", "below", "above"].includes(w));
    if (strange) return bad(path, "not-a-band", strange, "spread, below or nothing after the band");
    const low = parseQuantity(`${m[1]} ${m[2] || m[4]}`, "frequency", path);
    const high = parseQuantity(`${m[3]} ${m[4]}`, "frequency", path);
    if (!low.ok) return low;
    if (!high.ok) return high;
    if (!(low.value.value > 0 && high.value.value > low.value.value && high.value.value < 200e6))
      return bad(path, "not-a-band", said, "a lower and then a higher frequency, above 0 and under 200 MHz");
    const spread = words.some((w) => w.endsWith("spread"));
    const q = (value: number): Quantity => ({ value, spread: { shape: "exact" }, origin: "stated", source: typed });
    out.push({
      id: String.fromCharCode(97 + out.length),
      label: said.replace(/\s*\b(below|above)\b/gi, "").replace(/\bspread\b/i, "bandspread"),
      low: q(low.value.value),
      high: q(high.value.value),
      oscillator: words.includes("below") ? "below" : "above",
      spread,
    });
  }
  if (out.length === 0 || out.length > 26) return bad("bands", "not-a-band", text, "one to 26 bands, one a line");
  return good(out);
}

interface Plan {
  readonly cans: number;
  readonly rf: number;
  readonly filter: boolean;
  readonly bfo: boolean;
  readonly two: boolean;
}

function stagesOf({ cans, rf, filter, bfo, two }: Plan): Stages {
  const out: Stages = [stage("antenna", "antenna", "Antenna", "terminal", "24", "28")];
  for (let i = 1; i <= rf; i++)
    out.push(stage(i === 1 ? "rf" : `rf${i}`, "rf", rf === 1 ? "RF stage" : `${orders[i - 1]} RF stage`, "not stated", "24", "25", "13"));
  if (two) out.push(stage("mixer1", "mixer", "First mixer", "fixed oscillator", "13", "14"));
  out.push(stage("mixer", "mixer", two ? "Second mixer" : "Mixer", "not stated", "13", "14", "31a"));
  out.push(stage("oscillator", "oscillator", "Oscillator", "tuned", "14", "23", "26"));
  for (let i = 1; i <= cans; i++) {
    const label = cans === 1 ? "IF can" : `${orders[i - 1]} IF can`;
    out.push(stage(`can${i}`, "can", label, `T${i}`, ...(i === 1 ? ["20", "31a"] : ["20"])));
    if (filter && i === 1) out.push(stage("filter", "filter", "Ceramic filter", "ladder", "18", "20"));
    if (i < cans) out.push(stage(`if${i}`, "if-tube", cans === 2 ? "IF tube" : `${orders[i - 1]} IF tube`, "not stated", "13"));
  }
  out.push(stage("detector", "detector", "Detector and AVC", "not stated", "12", "15", "27"));
  if (bfo) out.push(stage("bfo", "bfo", "BFO", "not stated", "22"));
  // the detector's own tube is often the first audio as well: a stage of its own stands only where a tube serves it
  out.push(stage("audio", "audio", "First audio", "not stated", "12", "29b"));
  out.push(stage("output", "audio", "Output", "not stated", "12", "29b"));
  out.push(stage("speaker", "speaker", "Loudspeaker", "not stated", "33a"));
  out.push(stage("supply", "supply", "Supply", "rectifier and filter", "03", "09", "35"));
  return out;
}

const qualities: Readonly<Record<string, { readonly q: number; readonly k: number }>> = {
  wide: { q: 72, k: 0.0178 },
  medium: { q: 108, k: 0.0105 },
  sharp: { q: 190, k: 0.0055 },
};

function stripOf(cans: number, quality: string, filter: boolean, ifHz: Quantity): DescribedStrip {
  const { q, k } = qualities[quality];
  const c = quality === "sharp" ? 180e-12 : 112e-12;
  const sketch = (i: number) => {
    const last = i === cans - 1;
    return can({
      label: `T${i + 1}`,
      c: [c, c],
      // the diode loads the last can, so its own windings are usually a little lower
      q: last ? [q * 0.9, q * 0.9] : [q, q],
      k: last ? k * 1.2 : k,
      gm: i === 0 ? 0.4e-3 : 1.6e-3,
      rp: 700e3,
      cout: i === 0 ? 8e-12 : 6e-12,
      cin: last ? 10e-12 : 6e-12,
      load: last ? 220e3 : 1e6,
    });
  };
  return {
    // a figure typed without a tolerance keeps the usual one of cans that were set long ago
    intermediateFrequency:
      ifHz.spread.shape === "normal" ? ifHz : { ...ifHz, spread: tolerance(ifHz.origin === "stated" ? Math.max(500, halfOf(ifHz)) : 2000) },
    cans: Array.from({ length: cans }, (_, i) => sketch(i)),
    filter: filter ? ladderFilter(ifHz.value) : null,
  };
}
const halfOf = (q: Quantity): number => ("half" in q.spread ? q.spread.half : 0);

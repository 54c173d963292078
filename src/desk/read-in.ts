import { fitResonance, type ResonanceFit } from "../infer/resonance/fit";
import { slugsTouched } from "../infer/strip/attempt";
import { fitStrip, fittedWidthHz, type StripFit } from "../infer/strip/fit";
import type { Entry, Reading } from "../job/document";
import type { readingKinds } from "../job/format";
import { stepById } from "../job/steps";
import { benchOf, type JobView, setPointsOf, viewOf } from "../job/view";
import type { Stamp } from "../job/works";
import { readTable } from "../readings/delimited";
import { levelNoise } from "../readings/level-noise";
import { readSweep } from "../readings/read-sweep";
import { hearRecording } from "../readings/recording";
import { recordingFigures } from "../readings/recording-figures";
import { sweepFigures } from "../readings/sweep-figures";
import { readWav } from "../readings/wav";
import { readZeroBeats, type ZeroBeats } from "../readings/zero-beats";
import { history, slugsByHistory } from "../set/addresses/history";
import { lookUp } from "../set/paths";
import type { DescribedStrip } from "../set/strip";
import { rhythmOf } from "../sheets/dial/rhythm";
import { scaleEnds } from "../sheets/inputs/dial";
import { iaruSMeterDb } from "../standards/smeter";
import { hashOfBytes } from "../store/archive";
import type { StoredFile } from "../store/store";
import type { Dimension } from "../units/dimensions";
import { bad, good, type Read } from "../units/issue";
import { parseQuantity } from "../units/parse";
import { printInterval, printQuantity, printValue } from "../units/print";
import { type Quantity, standardUncertainty } from "../units/quantity";

export type ReadingKind = (typeof readingKinds)[number];
export interface ReadingAsk {
  readonly as: ReadingKind;
  readonly state: "as-found" | "as-left";
  readonly step?: string;
  readonly stage?: string;
  readonly instrument?: string;
  readonly thermal?: "cold" | "warming" | "warm";
  readonly lineVoltage?: Quantity;
  readonly frequencyUnit?: string;
  /** the stated law of S units, where no S-meter record of this set is there */
  readonly sMeterLaw?: "iaru";
  /** zero beats: band of the set, and set-point of the main dial */
  readonly band?: string;
  readonly setPoint?: string;
  readonly invented?: string;
  /** leave the strip as it is */
  readonly withoutFit?: boolean;
}
export interface ReadIn {
  readonly reading: Reading;
  readonly entries: readonly Entry[];
  readonly file: StoredFile;
  readonly fit?: StripFit;
}

const defaultStep: Readonly<Record<ReadingKind, string>> = {
  "if-sweep": "33b",
  sweep: "33b",
  resonance: "18",
  recording: "29b",
  table: "10",
  dial: "26",
};
type FigureRow = Reading["figures"][number];
const row = (name: string, dimension: Dimension, quantity: Quantity): FigureRow => {
  const u = standardUncertainty(quantity.spread);
  return {
    name,
    dimension,
    quantity,
    text:
      u > 0
        ? printInterval(quantity.value, quantity.value - 1.96 * u, quantity.value + 1.96 * u, dimension)
        : printQuantity(quantity.value, quantity.spread, dimension),
  };
};
const plain = (name: string, dimension: Dimension, value: number, source: string, u = 0): FigureRow =>
  row(name, dimension, { value, spread: u > 0 ? { shape: "normal", u } : { shape: "exact" }, origin: "measured", source });

/** An id for a reading that no other has, whoever reads one in at the same time. */
const readingId = (stamp: Stamp): string => `r-${stamp.newId().replace(/-/g, "").slice(0, 12)}`;
/** Headings as names of columns: each told from the others, none left out. */
function columnNames(headings: readonly string[]): string[] {
  const taken = new Set(["__proto__"]);
  return headings.map((heading) => {
    let name = heading;
    for (let n = 2; taken.has(name); n++) name = `${heading} (${n})`;
    taken.add(name);
    return name;
  });
}

interface Numbers {
  readonly columns: Record<string, number[]>;
  readonly figures: readonly FigureRow[];
  readonly warnings: readonly string[];
}

function numbersOf(bytes: Uint8Array, name: string, how: ReadingAsk): Read<Numbers> {
  if (how.as === "recording") {
    const w = readWav(bytes, name);
    if (!w.ok) return w;
    const heard = hearRecording(w.value, name);
    if (!heard.ok) return heard;
    return good({
      columns: { seconds: [w.value.samplesCount / w.value.sampleRateHz], sampleRateHz: [w.value.sampleRateHz] },
      figures: recordingFigures(w.value, heard.value).map((f) =>
        f.ran
          ? {
              name: f.name,
              dimension: f.dimension,
              text: `wanders, ${printValue(f.ran.from, f.dimension, (f.ran.to - f.ran.from) / 20)} to ${printValue(f.ran.to, f.dimension, (f.ran.to - f.ran.from) / 20)}`,
            }
          : plain(f.name, f.dimension, f.value, name, f.u),
      ),
      warnings: heard.value.warnings,
    });
  }
  if (how.as === "table") {
    const t = readTable(bytes, name);
    if (!t.ok) return t;
    const names = columnNames(t.value.columns.map((c, i) => `${c.name || `column ${i + 1}`}${c.unit ? ` ${c.unit}` : ""}`));
    return good({
      columns: Object.fromEntries(t.value.columns.map((c, i) => [names[i], Array.from(c.values)])),
      figures: [
        plain("rows", "ratio", t.value.lines.length, name),
        plain("columns", "ratio", names.length, name),
        plain("runs", "ratio", t.value.runs.length, name),
      ],
      warnings: t.value.warnings,
    });
  }
  if (how.as === "dial") {
    const z = readZeroBeats(bytes, name, how.frequencyUnit);
    if (!z.ok) return z;
    return good({
      columns: { reading: [...z.value.reading], frequencyHz: [...z.value.frequencyHz], approach: [...z.value.approach] },
      figures: zeroBeatFigures(z.value, name),
      warnings: [],
    });
  }
  const s = readSweep(bytes, name, {
    ...(how.frequencyUnit ? { frequencyUnit: how.frequencyUnit } : {}),
    ...(how.sMeterLaw ? { sMeterDb: iaruSMeterDb } : {}),
  });
  if (!s.ok) return s;
  const columns = {
    frequencyHz: Array.from(s.value.frequencyHz),
    levelDb: Array.from(s.value.levelDb),
    ...(s.value.complex ? { re: Array.from(s.value.complex.re), im: Array.from(s.value.complex.im) } : {}),
  };
  const figures: FigureRow[] = sweepFigures(s.value, name).map((f) =>
    f.quantity ? row(f.name, f.dimension, f.quantity) : { name: f.name, dimension: f.dimension, text: f.none ?? "" },
  );
  const warnings = [...s.value.warnings];
  if (how.as === "resonance") {
    const r = fitResonance(s.value, name);
    if (!r.ok) return r;
    figures.push(...resonanceRows(r.value, name));
    warnings.push(...resonanceWarnings(r.value, figures));
  }
  return good({ columns, figures, warnings });
}

const resonanceRows = (r: ResonanceFit, name: string): FigureRow[] => [
  plain("resonance, fitted", "frequency", r.centreHz, name, r.centreU),
  plain("loaded Q, fitted", "ratio", r.loadedQ, name, r.loadedQU),
  plain("width, fitted", "frequency", r.widthHz, name, (r.widthHz * r.loadedQU) / r.loadedQ),
  ...(r.unloaded
    ? [
        plain("unloaded Q, fitted", "ratio", r.unloaded.q, name, r.unloaded.qU),
        plain("coupling of the loop, fitted", "ratio", r.unloaded.coupling, name, r.unloaded.couplingU),
      ]
    : []),
];
/** What is odd about a fit of a resonance: misses beyond the noise, and a Q by widths that the fit does not bear out. */
function resonanceWarnings(r: ResonanceFit, figures: readonly FigureRow[]): string[] {
  const out: string[] = [];
  if (r.misfit.verdict === "widen")
    out.push(
      `the fit misses the sweep ${r.misfit.patterned ? "in a pattern" : `by ${r.misfit.timesNoise.toFixed(1)} times its noise`}: its intervals are widened ${r.misfit.widenRatio.toFixed(1)} times`,
    );
  const byWidth = figures.find((f) => f.name === "loaded Q")?.quantity;
  if (!byWidth) return out;
  const apart = Math.abs(byWidth.value - r.loadedQ);
  if (apart > 2 * Math.hypot(standardUncertainty(byWidth.spread), r.loadedQU) && apart > 0.03 * r.loadedQ)
    out.push(
      `loaded Q is ${printValue(byWidth.value, "ratio", byWidth.value / 100)} by the width and ${printValue(r.loadedQ, "ratio", r.loadedQ / 100)} by the fit: ${
        r.misfit.verdict === "ok"
          ? `trust the fit, which misses no reading; ${r.pointsWithin < 8 ? `only ${r.pointsWithin.toFixed(0)} points lie within the width, and the lines between them cut it wrong` : "a leak past the resonance bends the width"}`
          : "trust neither before it is swept again, narrower and with more points"
      }`,
    );
  return out;
}

/** Figures of zero beats as they were read. */
export const zeroBeatFigures = (z: ZeroBeats, source: string): FigureRow[] => [
  plain("zero beats", "ratio", z.reading.length, source),
  plain("lowest", "frequency", Math.min(...z.frequencyHz), source),
  plain("highest", "frequency", Math.max(...z.frequencyHz), source),
];

/**
 * One zero beat as an entry, as it is typed at the bench. What is odd about it stands in its warnings.
 *
 * @param view the job
 * @param said what was typed: scale reading, frequency, side, band, set-point
 * @param stamp time, person, id
 * @returns the entry, or the issue at the field that is wrong
 */
export function zeroBeat(
  view: JobView,
  said: {
    readonly band: string;
    readonly setPoint: string;
    readonly reading: string;
    readonly frequency: string;
    readonly approach: "up" | "down" | "not-said";
    readonly thermal?: Reading["thermal"];
  },
  stamp: Stamp,
): Read<Entry> {
  if (!view.set.bands.some((b) => b.id === said.band))
    return bad("band", "no-band", said.band, `one of ${view.set.bands.map((b) => `${b.id} (${b.label})`).join(", ")}`);
  const reading = parseQuantity(said.reading, "division", "reading");
  if (!reading.ok) return reading;
  const frequency = parseQuantity(said.frequency, "frequency", "frequency");
  if (!frequency.ok) return frequency;
  const z: ZeroBeats = {
    reading: [reading.value.value],
    frequencyHz: [frequency.value.value],
    approach: [{ up: 1, down: -1, "not-said": 0 }[said.approach]],
  };
  const [hz] = z.frequencyHz;
  if (!(hz > 0)) return bad("frequency", "not-positive", said.frequency, "a frequency above 0");
  const band = view.set.bands.find((b) => b.id === said.band);
  if (band && (hz < 0.95 * band.low.value || hz > 1.05 * band.high.value))
    return bad(
      "frequency",
      "outside-the-band",
      printValue(hz, "frequency"),
      `a frequency on ${band.label}, ${printValue(band.low.value, "frequency")} to ${printValue(band.high.value, "frequency")}; else choose the band that it is on`,
    );
  const named = said.setPoint.trim();
  const setPoint = setPointsOf(view, said.band).find((p) => p.toLowerCase() === named.toLowerCase()) ?? named;
  const at = `bands.${said.band}:${setPoint}`;
  const bench = benchOf(view, at);
  const [value] = z.reading;
  const [approach] = z.approach;
  const ends = scaleEnds({ ...bench, points: () => [...bench.points(at), { reading: value, frequencyHz: hz, approach: 0 }] });
  const margin = 0.05 * (ends.high - ends.low);
  if (value < ends.low - margin || value > ends.high + margin)
    return bad(
      "reading",
      "off-the-scale",
      said.reading,
      `a reading on the scale, ${ends.low} to ${ends.high}; where the scale has other ends, keep them on the sheet dial (scaleLow, scaleHigh)`,
    );
  const odd = rhythmOf(bench, approach === -1 ? -1 : 1)?.odd(value, hz);
  return good({
    id: stamp.newId(),
    at: stamp.at,
    who: stamp.who,
    kind: "reading",
    reading: {
      id: readingId(stamp),
      as: "dial",
      state: "as-left",
      step: defaultStep.dial,
      stage: "",
      instrument: "",
      thermal: said.thermal ?? "warm",
      band: said.band,
      setPoint,
      file: { name: "typed in", hash: "" },
      columns: { reading: [...z.reading], frequencyHz: [...z.frequencyHz], approach: [...z.approach] },
      figures: zeroBeatFigures(z, "typed in"),
      warnings: odd ? [odd] : [],
    },
  });
}

const stateWords = { "as-found": "as found", "as-left": "as left" } as const;
/** The same bytes once more: said, with the reading that holds them already. */
function sameFile(view: JobView, hash: string, state: ReadingAsk["state"]): string[] {
  const had = view.readings.find((r) => r.file.hash !== "" && r.file.hash === hash);
  if (!had) return [];
  const other = had.state === state ? "" : `, and this as ${stateWords[state].slice(3)}: nothing can have changed between them`;
  return [`the same file is in the job already, as reading ${had.id}, kept ${stateWords[had.state]}${other}`];
}
/** The fitted strip's width at -6 dB against the one cut from the sweep itself: said where they don't meet. */
function disagreement(reading: Reading, fit: StripFit, strip: DescribedStrip): string[] {
  const direct = reading.figures.find((f) => f.name === "width at -6 dB")?.quantity;
  if (!direct) return [];
  const fitted = fittedWidthHz(strip, fit, 6);
  const u = Math.hypot(standardUncertainty(direct.spread), 0.02 * direct.value * fit.misfit.widenRatio);
  if (!(Math.abs(fitted - direct.value) > 2 * u)) return [];
  return [
    `width at -6 dB is ${printValue(direct.value, "frequency", direct.value / 100)} in the sweep itself and ${printValue(fitted, "frequency", fitted / 100)} by the fitted strip: trust the sweep for the width`,
  ];
}

/** The strip as stated and measured, without what earlier fits made of it: a fit starts from that, so that no sweep counts twice. */
function priorStrip(view: JobView): DescribedStrip {
  const fitted = (e: Entry): boolean => e.kind === "values" && Object.values(e.values).every((q) => q.origin === "fitted");
  return viewOf({ ...view.document, entries: view.document.entries.filter((e) => !fitted(e)) }).set.strip as unknown as DescribedStrip;
}

/**
 * Reads a file into a job without storing it: the reading with its figures and, for a sweep of the IF strip, the strip fitted to it.
 *
 * @param view the job as it stands
 * @param file name and bytes
 * @param how what the reading is
 * @param stamp time, person, ids
 * @returns entries and file to append, or the located issue
 */
export function readFileIn(
  view: JobView,
  file: { readonly name: string; readonly bytes: Uint8Array },
  how: ReadingAsk,
  stamp: Stamp,
): Read<ReadIn> {
  if (how.step && !stepById(how.step)) return bad("--step", "no-step", how.step, "the number of a step, such as 20 or 33b");
  if (how.instrument && !view.instruments.some((i) => i.id === how.instrument))
    return bad(
      "--instrument",
      "no-instrument",
      how.instrument,
      view.instruments.length > 0
        ? `one of ${view.instruments.map((i) => i.id).join(", ")}`
        : "an instrument of this job: register it with `fettle instrument`",
    );
  if (how.as === "dial" && !view.set.bands.some((b) => b.id === how.band))
    return bad(
      "--band",
      "no-band",
      how.band ?? "",
      `the band that the zero beats are of: one of ${view.set.bands.map((b) => b.id).join(", ")}`,
    );
  const numbers = numbersOf(file.bytes, file.name, how);
  if (!numbers.ok) return numbers;
  const stored: StoredFile = {
    hash: hashOfBytes(file.bytes),
    name: file.name,
    media: how.as === "recording" ? "audio/wav" : "text/plain",
    bytes: file.bytes,
  };
  const id = readingId(stamp);
  const reading: Reading = {
    id,
    as: how.as,
    state: how.state,
    step: how.step ?? defaultStep[how.as],
    stage: how.stage ?? "",
    instrument: how.instrument ?? "",
    thermal: how.thermal ?? "warm",
    ...(how.lineVoltage ? { lineVoltage: how.lineVoltage } : {}),
    ...(how.invented ? { invented: how.invented } : {}),
    ...(how.band ? { band: how.band, setPoint: how.setPoint ?? "" } : {}),
    file: { name: stored.name, hash: stored.hash },
    columns: numbers.value.columns,
    figures: [...numbers.value.figures],
    warnings: [...numbers.value.warnings, ...sameFile(view, stored.hash, how.state)],
  };
  const head = () => ({ id: stamp.newId(), at: stamp.at, who: stamp.who });
  const entries: Entry[] = [{ ...head(), kind: "reading", reading }];
  if (how.as !== "if-sweep" || how.withoutFit) return good({ reading, entries, file: stored });
  const frequencyHz = Float64Array.from(reading.columns.frequencyHz);
  const levelDb = Float64Array.from(reading.columns.levelDb);
  const [told, past] = [lookUp(view.set, "alignment.slugsTouched"), lookUp(view.set, history.slugsTurned.address)];
  const slugs = slugsTouched.find((s) => s === told) ?? slugsByHistory(typeof past === "string" ? past : undefined) ?? "perhaps";
  const fit = fitStrip(priorStrip(view), { frequencyHz, levelDb, noiseDb: levelNoise(levelDb) }, `fit-${id}`, [id], slugs);
  if (!fit.ok) {
    const [issue] = fit.issues;
    if (issue.code !== "no-law") return fit;
    // the sweep is what it is: kept with its own figures, and no strip made of it
    reading.warnings.push(`no strip was fitted: ${issue.read}; wanted is ${issue.expected}`);
    return good({ reading, entries, file: stored });
  }
  reading.warnings.push(...disagreement(reading, fit.value, priorStrip(view)));
  const mutable = structuredClone(fit.value.estimate) as never;
  entries.push({
    ...head(),
    kind: "estimate",
    estimate: mutable,
    note: `strip fitted to ${file.name}: ${fit.value.usedPoints} points, misses them by ${fit.value.rmsDb.toFixed(2)} dB rms`,
  });
  entries.push({ ...head(), kind: "values", values: { ...fit.value.values }, why: `fit to reading ${id}`, fit: fit.value.estimate.id });
  return good({ reading, entries, file: stored, fit: fit.value });
}

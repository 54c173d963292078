import { answer } from "../../ask/answer";
import type { Answer } from "../../ask/answered";
import type { AnySheet } from "../../ask/contract";
import { resolveInputs, unreadOf } from "../../ask/resolve";
import type { Figure } from "../../ask/results";
import { sayFigure } from "../../ask/say";
import { dbOf, factorOfLevel, levelForFactorV, type SensitivityDefinition } from "../../physics/noise";
import { readDefinition } from "../../readings/definition";
import { sheetById } from "../../sheets/index";
import type { Dimension } from "../../units/dimensions";
import { parseQuantity } from "../../units/parse";
import { printQuantity, printValue } from "../../units/print";
import { type Quantity, standardUncertainty } from "../../units/quantity";
import { cardRows, writingOn } from "../cards";
import { benchOf, dialPoints, type JobView, setPointsOf } from "../view";

/** One figure of the performance record: as found, as left, by the model, and what may be said of them together. */
export interface ProofLine {
  readonly figure: string;
  readonly where: string;
  readonly method: string;
  readonly conditions: string;
  /** what the maker's chart says, where there is one */
  readonly chart?: string;
  readonly found: string;
  readonly left: string;
  readonly model: string;
  /** what the comparison says, or why there is none */
  readonly says: string;
  /** whether the figures were kept apart, since they are unlike */
  readonly refused: boolean;
  /** readings of a chart as parts of what this meter should read there, where both were read alike */
  readonly share?: { readonly found?: number; readonly left?: number };
}
interface Measured {
  readonly quantity: Quantity;
  readonly dimension: Dimension;
  readonly text: string;
  readonly method: string;
  readonly conditions: string;
  /** whether work on the set was recorded after it was taken */
  readonly before: boolean;
}
/** Whether work on the set was recorded after an entry. */
const workSince = (view: JobView, entry: string): boolean => {
  const at = view.inForce.findIndex((e) => e.id === entry);
  return view.inForce.some((e, i) => i > at && e.kind === "work");
};
/** Step of the job that proves a figure of this name. */
const stepOf = (figure: string): string | undefined =>
  /sensitiv/i.test(figure)
    ? "33a"
    : /width|shape|centre|ripple|loaded q|peak freq/i.test(figure)
      ? "33b"
      : /reject/i.test(figure)
        ? "33c"
        : /s9|s unit|output from/i.test(figure)
          ? "27"
          : /hum/i.test(figure)
            ? "29b"
            : /drift/i.test(figure)
              ? "30"
              : /dial/i.test(figure)
                ? "26"
                : undefined;
/** What stands beside a figure whose step work has made due again. */
const dueSaid = (view: JobView, figure: string): string => {
  const due = view.steps.find((s) => s.id === stepOf(figure))?.due ?? [];
  return due.length > 0 ? `Due again: ${due[0].why}.` : "";
};
const like = (s: string): string => s.toLowerCase().replace(/\s+/g, " ").replace(/,\s*/g, ", ").trim();
/** Dimensions that a figure of the record may have, by its name; the first that its value can be read as. */
const dimensionsOf = (figure: string): readonly Dimension[] =>
  /sensitiv|s9/i.test(figure)
    ? ["voltage", "dbm"]
    : /width|centre|dial|drift|frequency|image at/i.test(figure)
      ? ["frequency"]
      : /reject|hum|noise|ripple|response|avc|flat|gain/i.test(figure)
        ? ["decibel"]
        : ["decibel", "frequency", "voltage", "power", "time", "fraction", "ratio"];
function readValue(text: string, figure: string): { readonly quantity: Quantity; readonly dimension: Dimension } | undefined {
  for (const dimension of dimensionsOf(figure)) {
    const r = parseQuantity(text, dimension, "Value");
    if (r.ok)
      return { dimension, quantity: { value: r.value.value, spread: r.value.spread, origin: "measured", source: "performance sheet" } };
  }
  return undefined;
}

interface Pair {
  readonly figure: string;
  readonly where: string;
  found?: Measured;
  left?: Measured;
  /** what stands in the card and can't be read as a figure */
  unread?: string;
}
/** What was measured, as found and as left: from the performance sheet, and from sweeps. */
function pairsOf(view: JobView): Pair[] {
  const out: Pair[] = [];
  const pairFor = (figure: string, where: string): Pair => {
    const had = out.find((p) => like(p.figure) === like(figure) && like(p.where) === like(where));
    if (had) return had;
    const made: Pair = { figure, where };
    out.push(made);
    return made;
  };
  const entryOf = new Map(view.inForce.flatMap((e) => (e.kind === "reading" ? [[e.reading.id, e.id] as const] : [])));
  for (const r of view.readings)
    for (const f of r.figures) {
      if (!f.quantity || !f.dimension || r.as !== "if-sweep" || /^(points|level at the peak)$/.test(f.name)) continue;
      const pair = pairFor(f.name, "IF strip");
      const m: Measured = {
        quantity: f.quantity as Quantity,
        dimension: f.dimension as Dimension,
        text: f.text,
        method: "swept",
        conditions: `${r.thermal}${r.lineVoltage ? `, line ${printQuantity(r.lineVoltage.value, (r.lineVoltage as Quantity).spread, "voltage")}` : ""}${r.instrument ? `, ${r.instrument}` : ""}${r.invented ? ", INVENTED" : ""}`,
        before: workSince(view, entryOf.get(r.id) ?? ""),
      };
      if (r.state === "as-found") pair.found = m;
      else pair.left = m;
    }
  const written = writingOn(view, "performance");
  for (const { number, cells: row } of cardRows(view, "performance")) {
    const pair = pairFor(row.Figure ?? "", row["Band or place"] ?? "");
    const read = readValue(row.Value ?? "", row.Figure ?? "");
    if (!read) {
      pair.unread = row.Value ?? "";
      continue;
    }
    const m: Measured = {
      ...read,
      text: printQuantity(read.quantity.value, read.quantity.spread, read.dimension),
      method: row["Method and definition"] ?? "",
      conditions: row.Conditions ?? "",
      before: workSince(view, written.get(`row ${number}: Value`)?.entry ?? ""),
    };
    if (/found/i.test(row["As found or as left"] ?? "")) pair.found = m;
    else pair.left = m;
  }
  return out;
}

const small = { draws: 400, points: 11 };
/** Answers of a job's own model, asked once each. */
function modelsOf(view: JobView) {
  const asked = new Map<string, Answer | undefined>();
  const ask = (id: string, at: string, overrides: Readonly<Record<string, string>>): Answer | undefined => {
    const key = JSON.stringify([id, at, overrides]);
    if (!asked.has(key)) {
      const sheet = sheetById(id);
      const a = sheet && answer(sheet, benchOf(view, at), { ...small, overrides });
      asked.set(key, a?.ok ? a.value : undefined);
    }
    return asked.get(key);
  };
  const pick = (id: string, at: string, result: string, overrides: Readonly<Record<string, string>> = {}): Figure | undefined => {
    const figure = ask(id, at, overrides)?.results[result];
    return figure && figure.low !== null ? figure : undefined;
  };
  const bandAt = (where: string): { readonly at: string; readonly signal: string } | undefined => {
    const hz = parseQuantity(where, "frequency", "place");
    const band = view.set.bands.find(
      (b) => like(b.label) === like(where) || (hz.ok && b.low.value <= hz.value.value && b.high.value >= hz.value.value),
    );
    return band && { at: `bands.${band.id}`, signal: hz.ok ? where : `${band.high.value} Hz` };
  };
  return (pair: Pair): Figure | undefined => {
    const width = /width at -(3|6|20|60) dB/i.exec(pair.figure)?.[1];
    if (width) return pick("if-response", "", `width${width}dB`);
    const band = bandAt(pair.where);
    if (band && /image rejection/i.test(pair.figure)) return pick("image", band.at, "imageRejection", { signal: band.signal });
    if (band && /if rejection/i.test(pair.figure)) return pick("image", band.at, "ifRejection", { signal: band.signal });
    if (/^noise figure/i.test(pair.figure)) return pick("sensitivity", "", "predictedNoise");
    return undefined;
  };
}

/** What two figures of one kind say: their difference in the unit that suits it, and whether it is more than both are known to. */
function difference(dimension: Dimension, a: Quantity, b: Quantity): string {
  const asDb = dimension === "voltage";
  const d = asDb ? dbOf((a.value / b.value) ** 2) : a.value - b.value;
  const u = asDb
    ? 8.686 * Math.hypot(standardUncertainty(a.spread) / a.value, standardUncertainty(b.spread) / b.value)
    : Math.hypot(standardUncertainty(a.spread), standardUncertainty(b.spread));
  const size = printValue(Math.abs(d), asDb ? "decibel" : dimension, Math.max(u, Math.abs(d) / 50));
  return Math.abs(d) <= 2 * u ? `no certain difference (${size})` : `${size} ${d > 0 ? "more" : "less"} than as found`;
}
const asQuantity = (f: Figure): Quantity => ({
  value: f.value ?? ((f.low ?? 0) + (f.high ?? 0)) / 2,
  spread: { shape: "normal", u: ((f.high ?? 0) - (f.low ?? 0)) / 4 },
  origin: "computed",
  source: "model",
});
function againstModel(m: Measured, model: Figure): string {
  const d = m.quantity.value - asQuantity(model).value;
  const u = Math.hypot(standardUncertainty(m.quantity.spread), standardUncertainty(asQuantity(model).spread));
  return Math.abs(d) <= 2 * u
    ? "as the model gives"
    : `${printValue(Math.abs(d), m.dimension, Math.max(u / 2, Math.abs(d) / 20))} ${d > 0 ? "over" : "under"} the model`;
}

/** A sensitivity as a noise figure, where its definition is whole. */
const noiseFigure = (m: Measured): { readonly d: SensitivityDefinition; readonly db: number } | undefined => {
  const r = readDefinition(m.method, "Method and definition");
  return r.ok && m.dimension === "voltage" ? { d: r.value, db: dbOf(factorOfLevel(m.quantity.value, r.value)) } : undefined;
};
function sensitivityLine(pair: Pair, modelled: Figure | undefined): Pick<ProofLine, "says" | "refused" | "model"> {
  const both = [pair.found, pair.left].filter((m) => m !== undefined);
  const figures = both.map((m) => ({ m, n: noiseFigure(m) }));
  const bare = figures.find((f) => !f.n);
  if (bare) {
    const r = readDefinition(bare.m.method, "");
    return {
      refused: true,
      model: "",
      says: `Not compared: ${bare.m === pair.found ? "as found" : "as left"} lacks ${r.ok ? "a level in volts" : r.issues[0].expected}.`,
    };
  }
  const nf = (db: number): string => printValue(db, "decibel", 0.5);
  const last = figures[figures.length - 1];
  const model =
    modelled && last.n
      ? `${printValue(levelForFactorV(10 ** ((modelled.value ?? 0) / 10), last.n.d), "voltage", 5e-8)}, by a noise figure of ${sayFigure(modelled, true)}`
      : "";
  const all = figures.map((f) => nf(f.n?.db ?? 0)).join(", then ");
  if (new Set(figures.map((f) => JSON.stringify(Object.entries(f.n?.d ?? {}).sort()))).size > 1)
    return { refused: true, model, says: `Not compared as microvolts: the definitions are unlike. As noise figures: ${all}.` };
  return {
    refused: false,
    model,
    says: `Noise figure ${all}.${both.length === 2 ? ` ${upper(difference(both[1].dimension, both[1].quantity, both[0].quantity))}.` : ""}`,
  };
}
const upper = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1);

/** Sheets whose answers about what was read are figures of the record by themselves: as left, with how they were taken. */
const own: readonly { readonly sheet: string; readonly results: readonly string[]; readonly method: string }[] = [
  { sheet: "s-meter", results: ["s9Level", "perUnit", "flatness"], method: "generator steps" },
  { sheet: "drift", results: ["whole", "fitAfter"], method: "log from a cold start" },
];
function ownLines(view: JobView): ProofLine[] {
  return own.flatMap(({ sheet: id, results, method }) => {
    const sheet = sheetById(id) as AnySheet;
    const bench = benchOf(view, "");
    const inputs = resolveInputs(sheet, bench);
    if (!inputs.ok || unreadOf(sheet, inputs.value).length > 0) return [];
    const a = answer(sheet, bench, { points: 11 });
    if (!a.ok) return [];
    return results
      .map((r) => a.value.results[r])
      .filter((f) => f.low !== null)
      .map(
        (f): ProofLine => ({
          figure: upper(f.meaning),
          where: "the set",
          method,
          conditions: "",
          found: "",
          left: sayFigure(f, true),
          model: "",
          says: "",
          refused: false,
        }),
      );
  });
}
/** Dial error at the marks: how far a scale that is marked in frequency is off, at its worst. */
function dialLines(view: JobView): ProofLine[] {
  return view.set.bands.flatMap((b) =>
    setPointsOf(view, b.id).flatMap((p): ProofLine[] => {
      const at = `bands.${b.id}:${p}`;
      const points = dialPoints(view, at);
      const sheet = sheetById("dial");
      const a = sheet && points.length >= 4 ? answer(sheet, benchOf(view, at), { draws: 200, points: 41 }) : undefined;
      return a?.ok
        ? [
            {
              figure: "Dial: where its law is least known, to 95 %",
              where: `${b.label}${p ? `, main dial at ${p}` : ""}`,
              method: `${points.length} zero beats with markers${(a.value.results.oddCount.value ?? 0) > 0 ? `, ${a.value.results.oddCount.value} left out` : ""}`,
              conditions: view.readings.some((r) => r.as === "dial" && r.band === b.id && r.invented !== undefined) ? "INVENTED" : "",
              found: "",
              left: sayFigure(a.value.results.worstDoubt, true),
              model: "",
              says: "The calibration card has every mark.",
              refused: false,
            },
          ]
        : [];
    }),
  );
}

/**
 * The performance record of a job: each figure as found and as left with its method and conditions, beside the model. Figures whose methods or
 * definitions are unlike are never compared.
 *
 * @param view the job
 * @returns lines, sweeps first, then the performance sheet, then what sheets read
 * @source house frame
 */
export function proofOf(view: JobView): ProofLine[] {
  const model = modelsOf(view);
  const predicted = model({ figure: "noise figure", where: "" });
  const lines = pairsOf(view).map((pair): ProofLine => {
    const last = pair.left ?? pair.found;
    const methods = [...new Set([pair.found, pair.left].flatMap((m) => (m ? [m.method] : [])))];
    const base = {
      figure: pair.figure,
      where: pair.where,
      method: methods.join(" / "),
      conditions: [...new Set([pair.found, pair.left].flatMap((m) => (m?.conditions ? [m.conditions] : [])))].join(" / "),
      found: pair.found?.text ?? "",
      left: pair.left?.text ?? "",
    };
    if (!last)
      return {
        ...base,
        model: "",
        refused: true,
        says: `Not a value that can be read: “${pair.unread ?? ""}”. Write a value with its unit.`,
      };
    if (/sensitiv/i.test(pair.figure)) return { ...base, ...sensitivityLine(pair, predicted) };
    const modelled = model(pair);
    const modelText = modelled ? sayFigure(modelled, true) : "";
    if (pair.found && pair.left && like(pair.found.method) !== like(pair.left.method))
      return {
        ...base,
        model: modelText,
        refused: true,
        says: `Not compared: as found by “${pair.found.method || "no method written"}”, as left by “${pair.left.method || "no method written"}”.`,
      };
    const said = [
      ...(pair.found && pair.left ? [difference(pair.left.dimension, pair.left.quantity, pair.found.quantity)] : []),
      ...(modelled && modelled.dimension === last.dimension && !last.before ? [againstModel(last, modelled)] : []),
    ];
    const apart =
      modelled && last.before ? ["Not compared with the model: work was recorded since, and the model is of the set as it is now."] : [];
    return {
      ...base,
      model: modelText,
      refused: apart.length > 0,
      says: [...(said.length > 0 ? [`${upper(said.join("; "))}.`] : []), ...apart].join(" "),
    };
  });
  return [...lines, ...dialLines(view), ...ownLines(view)].map((l) => {
    const due = dueSaid(view, l.figure);
    return due === "" ? l : { ...l, says: [l.says, due].filter((t) => t !== "").join(" "), refused: true };
  });
}
export const proofHeads = ["What", "Where", "As found", "As left", "By the model now", "Method, conditions", "What it says"] as const;
export const proofCells = (l: ProofLine): readonly string[] => [
  l.figure,
  l.where,
  l.found,
  l.left,
  l.model,
  [l.method, l.conditions].filter((t) => t !== "").join("; "),
  l.says,
];

import { answer } from "../../../ask/answer";
import type { Answer } from "../../../ask/answered";
import { keptPath } from "../../../ask/resolve";
import type { Figure } from "../../../ask/results";
import { sayFigure } from "../../../ask/say";
import { linearShrinking, shareByMeasuring, shareRemoved } from "../../../infer/worth/doubt";
import { sheetById } from "../../../sheets/index";
import { printValue } from "../../../units/print";
import { standardUncertainty } from "../../../units/quantity";
import { benchOf, type JobView, subjectLabel } from "../../view";
import { type Choice, percent, removedBy } from "./choice";
import { takesFor } from "./costs";

/** A figure of the hand-over: which question gives it by the model, which step measures it, and how well. */
interface HandOver {
  readonly sheet: string;
  readonly result: string;
  readonly perBand: boolean;
  readonly step: string;
  /** standard uncertainty of measuring it, in its own unit, or as a part of it. Common practice, no source. */
  readonly known: { readonly abs?: number; readonly part?: number };
}
const figures: readonly HandOver[] = [
  { sheet: "if-response", result: "width6dB", perBand: false, step: "33b", known: { part: 0.02 } },
  { sheet: "if-response", result: "offCentre", perBand: false, step: "33b", known: { abs: 50 } },
  { sheet: "if-response", result: "adjacentRejection5kHz", perBand: false, step: "33b", known: { abs: 1 } },
  { sheet: "image", result: "imageRejection", perBand: true, step: "33c", known: { abs: 2 } },
  { sheet: "sensitivity", result: "predictedNoise", perBand: false, step: "33a", known: { abs: 1 } },
];
/** A value of the set is measured to this part of itself, or to so many dB. Common practice, no source. */
const measuredPart = 0.02;
const measuredDb = 0.5;
/** A measurement that is expected to remove less than this of a figure's variance is not told. House rule. */
const leastShare = 0.1;
const asked = { draws: 200, points: 11 } as const;

/** A figure of the hand-over as it is known now. */
export interface Known {
  readonly step: string;
  readonly of: string;
  readonly says: string;
  /** part of its variance that measuring it by its step is expected to remove */
  readonly share: number;
  /** what it counts among the uncertainties: a figure of every band counts as one with those of the others */
  readonly counts: number;
  readonly answer: Answer;
  readonly figure: Figure;
}
/** 95 % of a normal law lie within so many standard deviations on either side. Source: definition. */
const wide = 3.92;

/**
 * The figures of the hand-over that are not proved yet, each as the model knows it.
 *
 * @param view the job
 * @returns figures; none that no model gives
 * @source sheets on the IF, images and sensitivity
 */
export function figuresOf(view: JobView): readonly Known[] {
  return figures.flatMap((f): Known[] => {
    const sheet = sheetById(f.sheet);
    if (!sheet || view.steps.find((s) => s.id === f.step)?.state === "proven") return [];
    const subjects = f.perBand ? view.set.bands.map((b) => `bands.${b.id}`) : [""];
    return subjects.flatMap((at): Known[] => {
      const a = answer(sheet, benchOf(view, at), asked);
      const figure = a.ok ? a.value.results[f.result] : undefined;
      if (!a.ok || !figure || figure.low === null || figure.high === null || !(figure.high > figure.low)) return [];
      const u = (figure.high - figure.low) / wide;
      const measured = f.known.abs ?? (f.known.part ?? measuredPart) * Math.abs(figure.value ?? figure.high);
      const share = shareRemoved(linearShrinking([u ** 2], [1], [1], measured ** 2));
      const where = at === "" ? "" : `, ${subjectLabel(view.set, at)}`;
      const says = `${figure.meaning}${where}: ${sayFigure(figure)} by the model, to about ${printValue(1.96 * measured, figure.dimension, 0.2 * measured)} once measured`;
      return [{ step: f.step, of: `${figure.meaning}${where}`, says, share, counts: 1 / subjects.length, answer: a.value, figure }];
    });
  });
}

const kinds = { desk: "desk", panel: "panel", "open-dead": "openDead", "open-live": "openLive" } as const;
/** A single value that one of these figures hangs on, where measuring it is expected to tell enough. */
function valueChoice(view: JobView, { answer: a, figure, of, counts }: Known): readonly Choice[] {
  const sheet = sheetById(a.sheet);
  return a.next
    .filter((n) => n.inputs.length === 1 && a.results[n.result] === figure)
    .flatMap((n): Choice[] => {
      const q = a.quantities.find((x) => x.path === n.inputs[0]);
      if (!q || !sheet || q.quantity.origin === "measured") return [];
      const measured = q.dimension === "decibel" ? measuredDb : measuredPart * Math.abs(q.quantity.value);
      const share = shareByMeasuring(n.share, standardUncertainty(q.quantity.spread), measured);
      if (share < leastShare) return [];
      return [
        {
          id: `measure:${keptPath(sheet, a.at, q.path) ?? `${a.sheet} ${q.path}`}`,
          kind: "measure",
          does: `${n.state === "desk" ? "state" : "measure"} this: ${q.meaning}`,
          place: a.at === "" ? "" : subjectLabel(view.set, a.at),
          why: `nobody has measured it, and ${percent(share)} of the uncertainty in the ${of} depends on it`,
          how: n.how,
          removes: [{ of, share: share * counts }],
          wants: n.state,
          warm: false,
          hazards: n.state === "open-dead" || n.state === "open-live" ? ["b-plus", "stored-charge"] : ["none"],
          takes: takesFor(view, "reading", kinds[n.state]),
          about: "",
          with: `sheet ${a.sheet} JOB${a.at ? ` --at ${a.at}` : ""} --try ${q.path}=VALUE --record`,
        },
      ];
    });
}
/**
 * Single values of the set that these figures hang on most and that nobody has measured.
 *
 * @param view the job
 * @param known the figures
 * @returns choices, one a value; of the same value at several bands the one that tells most
 * @source shares of each figure's variance, and the conditional normal law
 */
export function valueChoices(view: JobView, known: readonly Known[]): readonly Choice[] {
  const out = new Map<string, Choice>();
  for (const c of known.flatMap((k) => valueChoice(view, k))) {
    const had = out.get(c.does);
    if (!had || removedBy(c) > removedBy(had)) out.set(c.does, c);
  }
  return [...out.values()];
}

/**
 * A sweep of the IF, where what the cans are tuned and coupled to leaves its width, its centre or what it rejects uncertain: one reading tells all of them.
 *
 * @param view the job
 * @param known the figures
 * @returns the sweep; none where it would tell little
 * @source conditional normal law, each figure by itself
 */
export function sweepChoices(view: JobView, known: readonly Known[]): readonly Choice[] {
  const ofStrip = known.filter((k) => k.answer.sheet === "if-response" && k.share >= leastShare);
  const [most] = [...ofStrip].sort((a, b) => b.share - a.share);
  if (!most) return [];
  return [
    {
      id: "sweep:strip",
      kind: "measure",
      does: "sweep the IF",
      place: "",
      why: most.says,
      how: "generator clipped to the mixer's grid with the set off and discharged, AVC off, level as low as reads well; stand clear, switch on, sweep past both skirts",
      removes: ofStrip.map((k) => ({ of: k.of, share: k.share * k.counts })),
      wants: "open-live",
      warm: true,
      hazards: ["b-plus", "stored-charge"],
      takes: takesFor(view, "step", "33b"),
      about: "20",
      with: "read JOB FILE --as if-sweep",
    },
  ];
}

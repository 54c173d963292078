import { sayFigure } from "../../../ask/say";
import { onceFor } from "../../../numerics/once";
import { upperFirst } from "../../../units/sentence";
import type { JobView } from "../../view";
import { dialLines, ownLines } from "./answered";
import { againstModel, difference } from "./compare";
import type { ProofLine } from "./line";
import { modelsOf } from "./models";
import { like, type Measured, type Pair, pairsOf } from "./pairs";
import { sensitivityLine } from "./sensitivity";

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

const measuredOf = (pair: Pair): readonly Measured[] => [pair.found, pair.left].filter((m) => m !== undefined);
/** Different ones of some words, in order. */
const eachOnce = (words: readonly string[]): string => [...new Set(words)].join(" / ");

function pairLine(pair: Pair, model: ReturnType<typeof modelsOf>): ProofLine {
  const last = pair.left ?? pair.found;
  const both = measuredOf(pair);
  const base = {
    figure: pair.figure,
    where: pair.where,
    method: eachOnce(both.map((m) => m.method)),
    conditions: eachOnce(both.flatMap((m) => (m.conditions ? [m.conditions] : []))),
    found: pair.found?.text ?? "",
    left: pair.left?.text ?? "",
    before: last?.before ?? false,
  };
  if (!last)
    return {
      ...base,
      model: "",
      refused: true,
      says: `Not a readable value: “${pair.unread ?? ""}”. Write a value with its unit.`,
    };
  if (/sensitiv/i.test(pair.figure)) return { ...base, ...sensitivityLine(pair, model({ figure: "noise figure", where: "" })) };
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
    says: [...(said.length > 0 ? [`${upperFirst(said.join("; "))}.`] : []), ...apart].join(" "),
  };
}

/**
 * What was measured beside the model, and how far each dial is right.
 *
 * @param view the job
 * @returns lines of a performance record, before what sheets read
 * @source house frame
 */
export function modelLines(view: JobView): readonly ProofLine[] {
  const model = modelsOf(view);
  return [...pairsOf(view).map((pair) => pairLine(pair, model)), ...dialLines(view)];
}
/**
 * The performance record of a job: each figure as found and as left with its method and conditions, beside the model. Figures whose methods or
 * definitions are unlike are never compared.
 *
 * @param view the job
 * @returns lines, sweeps first, then the performance sheet, then what sheets read
 * @source house frame
 */
export const proofOf = onceFor((view: JobView): readonly ProofLine[] =>
  [...modelLines(view), ...ownLines(view)].map((l) => {
    const due = dueSaid(view, l.figure);
    return due === "" ? l : { ...l, says: [l.says, due].filter((t) => t !== "").join(" "), refused: true };
  }),
);

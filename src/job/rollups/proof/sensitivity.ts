import type { Figure } from "../../../ask/results";
import { sayFigure } from "../../../ask/say";
import { dbOf, factorOfLevel, levelForFactorV, type SensitivityDefinition } from "../../../physics/noise";
import { readDefinition } from "../../../readings/definition";
import { printValue } from "../../../units/print";
import { upperFirst } from "../../../units/sentence";
import { difference } from "./compare";
import type { ProofLine } from "./line";
import type { Measured, Pair } from "./pairs";

/** A sensitivity as a noise figure, where its definition is whole. */
const noiseFigure = (m: Measured): { readonly d: SensitivityDefinition; readonly db: number } | undefined => {
  const r = readDefinition(m.method, "Method and definition");
  return r.ok && m.dimension === "voltage" ? { d: r.value, db: dbOf(factorOfLevel(m.quantity.value, r.value)) } : undefined;
};
/**
 * What two sensitivities say: compared as noise figures, since microvolts of unlike definitions are unlike.
 *
 * @param pair as found and as left, at least one of them
 * @param modelled noise figure by the model, dB
 * @returns words, the model's volts, and whether they were kept apart
 * @source house frame; levels by physics/noise
 */
export function sensitivityLine(pair: Pair, modelled: Figure | undefined): Pick<ProofLine, "says" | "refused" | "model"> {
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
    return { refused: true, model, says: `Not compared as microvolts: the definitions differ. As noise figures: ${all}.` };
  return {
    refused: false,
    model,
    says: `Noise figure ${all}.${both.length === 2 ? ` ${upperFirst(difference(both[1].dimension, both[1].quantity, both[0].quantity))}.` : ""}`,
  };
}

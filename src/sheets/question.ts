import type { AnySheet } from "../ask/contract";
import { keptRowsOf } from "../ask/declare";

/** A question as it is declared: what a person sees of it before it is answered. Nothing in it computes. */
export type Question = Omit<AnySheet, "prepare" | "tables" | "strips" | "headline" | "findings" | "parts" | "drawn" | "theory">;

/** Questions with the names under which rows typed on them are kept. */
export const asQuestions = (declared: readonly Question[]): readonly Question[] =>
  declared.map((q) => ({ ...q, keptRows: keptRowsOf(q.inputs) }));

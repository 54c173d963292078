import type { Shown, Volts } from "../../ask/drawn/circuit";
import type { Values } from "../../ask/drawn/drafting";
import { type Loose, ladder, type Rung } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";

/** A generator at a place of the set. */
export interface GeneratorAt {
  readonly id: string;
  readonly title: string;
  readonly level?: Volts | undefined;
  readonly through: Loose;
  readonly at: string;
  readonly atVolts?: Volts | undefined;
  readonly leak?: { readonly what: string; readonly value?: Shown | undefined };
  /** what is read behind it, such as a meter */
  readonly behind?: Rung;
}
/**
 * A generator joined to a place of the set through what keeps the two apart.
 *
 * @param draft values of the set
 * @param a where and through what
 * @returns the circuit
 * @source common practice, no source
 */
export const generatorDrawing = (draft: Pick<Values, "common">, a: GeneratorAt): CircuitSketch =>
  ladder({ id: a.id, title: a.title, common: draft.common }, [
    { label: "generator", end: "terminal", volts: a.level },
    {
      series: a.through,
      label: a.at,
      volts: a.atVolts,
      down: a.leak ? [[{ kind: "resistor", ...a.leak }]] : [],
    },
    a.behind ?? { end: "onward" },
  ]);

import type { Volts } from "../../ask/drawn/circuit";
import type { Values } from "../../ask/drawn/drafting";
import { type Loose, ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";

/** What a question knows of an accessory's lead. */
export interface LeadHere {
  readonly id: string;
  /** the most that B+ reaches where the lead hangs; none at the antenna terminal */
  readonly bPlus?: Volts;
  readonly series?: Partial<Loose>;
  /** volts at the accessory's connector */
  readonly connector?: Volts;
  readonly accessory?: Partial<Loose>;
}

/**
 * An accessory's lead, from its point in the receiver by its capacitor and connector to the accessory.
 *
 * @param draft values of the set
 * @param h volts and marks of the question
 * @returns the circuit
 * @source the usual way to hang an accessory on a receiver: common practice, no source
 */
export const leadDrawing = (draft: Values, h: LeadHere): CircuitSketch =>
  ladder({ id: h.id, title: "The accessory's lead", common: draft.common }, [
    { label: h.bPlus ? "B+ point in the receiver" : "antenna terminal", end: "terminal", ...(h.bPlus ? { volts: h.bPlus } : {}) },
    { series: { kind: "capacitor", what: h.bPlus ? "series capacitor" : "coupling", ...h.series } },
    {
      series: { kind: "cable", what: "cable" },
      label: "connector",
      ...(h.connector ? { volts: h.connector } : {}),
      down: [[{ kind: "block", what: "the accessory", ...h.accessory }]],
    },
  ]);

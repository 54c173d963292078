import type { Volts } from "../../ask/drawn/circuit";
import type { Values } from "../../ask/drawn/drafting";
import { type Loose, ladder, type Rung } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import type { SupplyInputs } from "./supply";

/** What a question knows of the filter: volts at its three capacitors, and what is to be done with a part. */
export interface FilterHere {
  readonly id: string;
  readonly title: string;
  readonly volts: { readonly first?: Volts; readonly second?: Volts; readonly third?: Volts };
  readonly first?: Partial<Loose>;
  readonly second?: Partial<Loose>;
  readonly third?: Partial<Loose>;
  readonly bleeder?: Partial<Loose>;
  readonly rectifier?: Partial<Loose>;
}
type Plain = Pick<
  SupplyInputs,
  "filterInput" | "secondCapacitance" | "thirdCapacitance" | "firstChoke" | "secondChoke" | "rectifierType" | "arrangement"
>;

const ofEach: Readonly<Record<Plain["arrangement"], string>> = {
  "full-wave": "one of two plates",
  bridge: "one pair of four",
  "half-wave": "half-wave",
};

/**
 * The filter of B+ with its capacitors, from the rectifier to what draws.
 *
 * @param draft values of the set
 * @param x plain inputs of the supply
 * @param h volts and marks of the question
 * @returns the circuit
 * @source rectifier, reservoir, choke or resistor, smoothing: as the set is described
 */
export function filterDrawing(draft: Values, x: Plain, h: FilterHere): CircuitSketch {
  const { value } = draft;
  const capacitor = (what: string, path: string, more: Partial<Loose> = {}): readonly Loose[] => [
    { kind: "electrolytic", what, value: value(path), ...more },
  ];
  const between = (choke: number, [inductance, ohms]: readonly [string, string], what: string): Loose => {
    const ohm = value(ohms);
    return choke > 0
      ? { kind: "choke", what: `${what} choke`, value: value(inductance), says: ohm && `${ohm.text}${ohm.assumed ? "?" : ""}` }
      : { kind: "resistor", what: `${what} filter resistor`, value: ohm };
  };
  const ac: Volts = { ...draft.expect("secondaryVoltage"), ac: true };
  const silicon = x.rectifierType === "silicon";
  const rectifier: Loose = {
    kind: silicon ? "diode" : "tube-diode",
    what: "rectifier",
    name: x.rectifierType === "other" ? undefined : x.rectifierType.replace(/ or .*/, ""),
    says: silicon ? ofEach[x.arrangement].replace("plates", "diodes") : ofEach[x.arrangement],
    ...h.rectifier,
  };
  const choke = x.filterInput === "choke";
  const none: Rung["down"] = [];
  return ladder({ id: h.id, title: h.title, common: draft.common }, [
    { label: "winding", end: "terminal", volts: ac },
    {
      series: rectifier,
      ...(choke
        ? { down: none }
        : { label: "B+ first", volts: h.volts.first, down: [capacitor("first filter capacitor", "firstCapacitance", h.first)] }),
    },
    {
      series: between(x.firstChoke, ["firstChoke", "firstResistance"], "first"),
      label: "B+ second",
      volts: h.volts.second,
      down: x.secondCapacitance > 0 ? [capacitor("second filter capacitor", "secondCapacitance", h.second)] : none,
    },
    {
      series: between(x.secondChoke, ["secondChoke", "secondResistance"], "second"),
      label: "B+ third",
      volts: h.volts.third,
      down: [
        ...(x.thirdCapacitance > 0 ? [capacitor("third filter capacitor", "thirdCapacitance", h.third)] : []),
        [{ kind: "resistor", what: "bleeder", value: value("bleeder"), ...h.bleeder }],
      ],
    },
  ]);
}

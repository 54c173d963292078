import type { ChoiceInput, QuantityInput } from "../../ask/inputs";
import type { Bench } from "../../set/bench";
import { rectifierByType, rectifierNames, siliconDropV } from "../../standards/rectifiers";
import { exact, type Quantity, type Spread, tolerance } from "../../units/quantity";

/** Inputs of the supply, asked for in the same words by the sheets on power. Each is kept at the supplies, or at the line. */
type Own = Omit<QuantityInput, "kind" | "from" | "keptAt" | "assumed"> & {
  readonly at?: string;
  readonly assumed: readonly [value: number, spread: Spread, source: string];
};
export const ofSupply = (name: string, { at, assumed: [value, spread, source], ...rest }: Own) => {
  const path = at ?? `supplies.${name}`;
  return {
    kind: "quantity",
    ...rest,
    from: (b: Bench) => b.quantity(path),
    keptAt: path,
    assumed: { value, spread, source },
  } as const satisfies QuantityInput;
};

/** Something that a person reads at the set: until then it is not measured, and 0 is a reading like any other. */
export const readAtSupply = (name: string, rest: Omit<QuantityInput, "kind" | "from" | "keptAt" | "assumed" | "optional">) => {
  const path = `supplies.${name}`;
  return {
    kind: "quantity",
    optional: true,
    ...rest,
    from: (b: Bench) => b.quantity(path),
    keptAt: path,
  } as const satisfies QuantityInput;
};
const practice = "common practice, no source";

/** Today's line as it was read at the outlet; undefined where nobody has. */
export const lineToday = (b: Bench): Quantity | undefined => b.quantity("line.today") ?? b.quantity("supplies.lineNow");
export const lineVoltageInput = {
  kind: "quantity",
  dimension: "voltage",
  positive: true,
  min: 50,
  max: 300,
  meaning: "today's line, at the outlet; not the rated line of the type plate",
  howMeasured: "voltmeter at the outlet, set on; somebody trained for it, insulated probes",
  from: (b) => {
    const rated = b.quantity("line.voltage");
    return (
      lineToday(b) ??
      (rated && { ...rated, spread: tolerance(0.03 * rated.value), origin: "assumed", source: "its rated voltage, not measured today" })
    );
  },
  keptAt: "line.today",
  assumed: { value: 117, spread: tolerance(4), source: "rated voltage of the era, from memory" },
} as const satisfies QuantityInput;
export const ratedLineInput = ofSupply("line", {
  at: "line.voltage",
  dimension: "voltage",
  positive: true,
  min: 50,
  max: 300,
  meaning: "rated line: the voltage that the set is made for, never what the meter says today",
  howMeasured: "type plate",
  assumed: [117, exact, "rated voltage of the era, from memory"],
});
export const lineFrequencyInput = ofSupply("frequency", {
  at: "line.frequency",
  dimension: "frequency",
  positive: true,
  min: 20,
  max: 500,
  meaning: "line frequency",
  howMeasured: "the country's",
  assumed: [60, exact, "usual where the line is 117 V"],
});
export const highLineInput = ofSupply("highLine", {
  at: "line.highRatio",
  dimension: "ratio",
  positive: true,
  max: 1.5,
  meaning: "highest line voltage over the rated one",
  howMeasured: "log the line for some days",
  assumed: [127 / 117, tolerance(0.02), `127 V on a set made for 117 V, ${practice}`],
});
export const secondaryInput = ofSupply("secondaryVoltage", {
  dimension: "voltage",
  min: 40,
  max: 1500,
  meaning: "rms volts that one plate of the rectifier sees, at the rated line (the line itself in a transformerless set)",
  howMeasured: "service sheet, or the transformer's marking; measured only by somebody trained for it, at full winding voltage",
  assumed: [300, tolerance(15), "usual for a set of this class"],
});
export const arrangements = ["full-wave", "bridge", "half-wave"] as const;
export const arrangementInput = {
  kind: "choice",
  options: arrangements,
  meaning: "rectifier circuit: two plates on a tapped winding, four diodes, or one plate",
  howMeasured: "look at it, or the service sheet",
  from: (b) => {
    const kept = b.choice("supplies.arrangement");
    const said = b.choice("supplies.rectifier") ?? "";
    return kept ?? (/half/.test(said) ? "half-wave" : /bridge/.test(said) ? "bridge" : said ? "full-wave" : undefined);
  },
  assumed: "full-wave",
  keptAt: "supplies.arrangement",
} as const satisfies ChoiceInput;
export const rectifierTypeInput = {
  kind: "choice",
  options: rectifierNames,
  meaning: "what rectifies now; other takes the drop and current typed in",
  howMeasured: "the tube in its socket, or the diodes that somebody put in",
  from: (b) => b.choice("supplies.rectifierType"),
  assumed: "5Y3GT or 80",
  keptAt: "supplies.rectifierType",
} as const satisfies ChoiceInput;
export const originalTypeInput = {
  kind: "choice",
  options: rectifierNames.filter((n) => n !== "silicon" && n !== "other"),
  meaning: "vacuum rectifier that the set was made for",
  howMeasured: "service sheet, or the socket's marking",
  from: (b) => {
    const now = b.choice("supplies.rectifierType");
    return b.choice("supplies.originalRectifier") ?? (now && rectifierByType(now) ? now : undefined);
  },
  assumed: "5Y3GT or 80",
  keptAt: "supplies.originalRectifier",
} as const satisfies ChoiceInput;

const byType =
  (name: string, of: (type: string) => Omit<Quantity, "origin"> | undefined) =>
  (bench: Bench, chosen: Readonly<Record<string, string>>): Quantity | undefined => {
    const row = of(chosen.rectifierType ?? "");
    return row ? { ...row, origin: "stated" } : bench.quantity(`supplies.${name}`);
  };
export const rectifierDropInput = {
  kind: "quantity",
  dimension: "voltage",
  positive: true,
  max: 200,
  meaning: "drop of the rectifier at its stated current",
  howMeasured: "tube manual",
  from: byType("rectifierDrop", (t) => {
    if (t === "silicon") return { value: siliconDropV, spread: tolerance(0.1), source: "silicon, at any current of a receiver" };
    const r = rectifierByType(t);
    return r && { value: r.dropV, spread: tolerance(0.1 * r.dropV), source: `${r.type}: ${r.source} (${r.seen})` };
  }),
  keptAt: "supplies.rectifierDrop",
  assumed: { value: 40, spread: tolerance(10), source: practice },
} as const satisfies QuantityInput;
export const rectifierCurrentInput = {
  kind: "quantity",
  dimension: "current",
  positive: true,
  max: 2,
  meaning: "current per plate at which the rectifier's drop is given",
  howMeasured: "tube manual",
  from: byType("rectifierCurrent", (t) => {
    const r = rectifierByType(t);
    return r && { value: r.atA, spread: exact, source: `${r.type}: ${r.source} (${r.seen})` };
  }),
  keptAt: "supplies.rectifierCurrent",
  assumed: { value: 0.1, spread: exact, source: practice },
} as const satisfies QuantityInput;

import type { Bench } from "../set/bench";
import { meterNames } from "../standards/meters";
import { parseQuantity } from "../units/parse";
import { type Quantity, tolerance } from "../units/quantity";
import type { ChoiceInput, Row } from "./contract";

/** What the voltage chart's card holds, as the sheets on DC ask for it. */
export const electrodes = ["other", "plate", "screen", "cathode", "grid", "heater", "B+", "AVC"] as const;

/** The electrode that a person wrote: its word, an old or British one, or a letter. */
export function electrodeOf(said: string): number {
  const word = said.trim().toLowerCase();
  const known: readonly (readonly [RegExp, (typeof electrodes)[number]])[] = [
    [/^(plate|anode|p|a)\b/, "plate"],
    [/^(screen|g2|sg)\b/, "screen"],
    [/^(cathode|k)\b/, "cathode"],
    [/^(grid|control grid|g1|g)\b/, "grid"],
    [/^(heater|filament|h|f)\b/, "heater"],
    [/^(b\+|ht|supply|b)/, "B+"],
    [/^(avc|agc)\b/, "AVC"],
  ];
  const hit = known.find(([r]) => r.test(word))?.[1] ?? "other";
  return electrodes.indexOf(hit);
}
const numberOf = (text: string | undefined, dimension: "voltage" | "resistance" | "ratio"): number => {
  if (text === undefined || text.trim() === "") return Number.NaN;
  const bare = /^\s*[+-]?\d*[.,]?\d+\s*$/.test(text) && dimension === "voltage" ? `${text} V` : text;
  const r = parseQuantity(bare, dimension, "cell");
  return r.ok ? r.value.value : Number.POSITIVE_INFINITY;
};
/** Rows of the voltage chart's card as numbers: what is not written is NaN, what can't be read is infinite, and refused by the sheet. */
export const chartRows = (bench: Bench): Row[] =>
  bench.card("voltage-chart").map((r) => ({
    socket: numberOf(/\d+/.exec(r.Tube ?? "")?.[0], "ratio"),
    pin: numberOf(r.Pin, "ratio"),
    electrode: electrodeOf(r.Electrode ?? ""),
    chart: numberOf(r["Chart V"], "voltage"),
    source: numberOf(r["Source Ω if known"], "resistance"),
    measured: numberOf(r["Measured V"], "voltage"),
    range: numberOf(r["Range V"], "voltage"),
  }));

/** Rows of the resistance chart's card, the same way. */
export const resistanceRows = (bench: Bench): Row[] =>
  bench.card("resistance-chart").map((r) => ({
    socket: numberOf(/\d+/.exec(r.Tube ?? "")?.[0], "ratio"),
    pin: numberOf(r.Pin, "ratio"),
    chart: numberOf(r["Chart Ω"], "resistance"),
    measured: numberOf(r["Measured Ω"], "resistance"),
  }));

/** The volts of the line in a field of the voltage chart's card: the figure that stands with a V, or alone. */
export function onChartCard(bench: Bench, field: string): Quantity | undefined {
  const text = bench.cardField("voltage-chart", field) ?? "";
  const volts = Number(
    (/(\d+(?:[.,]\d+)?)\s*V\b(?!\/)/i.exec(text)?.[1] ?? /^\s*(\d+(?:[.,]\d+)?)\s*$/.exec(text)?.[1] ?? "").replace(",", "."),
  );
  return volts >= 50 && volts <= 300
    ? { value: volts, spread: tolerance(0.01 * volts), origin: "measured", source: "the voltage chart's card" }
    : undefined;
}
/** The kind of meter that a field of the card names. */
function meterOnCard(bench: Bench, field: string): string | undefined {
  const text = (bench.cardField("voltage-chart", field) ?? "").toLowerCase();
  const known: readonly (readonly [RegExp, string])[] = [
    [/500\s*(ω|ohm)?s?\s*\/?\s*(per)?\s*v/, "500 Ω/V"],
    [/20[.,]?(000)?\s*k?\s*(ω|ohm)?s?\s*\/?\s*(per)?\s*v/, "20 kΩ/V"],
    [/(^|\D)(1\s*k|1[.,]?000)\s*(ω|ohm)?s?\s*\/?\s*(per)?\s*v/, "1 kΩ/V"],
    [/11\s*m|vtvm|valve voltmeter/, "VTVM, 11 MΩ"],
    [/10\s*m|digital|dmm/, "digital, 10 MΩ"],
  ];
  return known.find(([r]) => r.test(text))?.[1];
}

export const meterInput = (meaning: string, name: string, assumed: string, field: string) =>
  ({
    kind: "choice",
    options: meterNames,
    meaning,
    howMeasured: "what is printed on it, or in its manual",
    from: (bench: Bench) => bench.choice(`supplies.${name}`) ?? meterOnCard(bench, field),
    assumed,
    keptAt: `supplies.${name}`,
  }) as const satisfies ChoiceInput;

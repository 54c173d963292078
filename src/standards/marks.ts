import { bad, good, type Read } from "../units/issue";
import { own } from "../units/own";
import { printValue } from "../units/print";

/** Marks of old parts, told in words; where a mark can be read in more than one way, each way is told. Source beside each table. */
export interface Told {
  readonly value: string;
  readonly tolerance: string;
  readonly also: string;
}
const colours = ["black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white"] as const;
const alias: Readonly<Record<string, string>> = { gray: "grey", purple: "violet", slate: "grey", no: "none" };
/** Source: IEC 60062, from memory; older parts: none 20 %. */
const resistorTolerance: Readonly<Record<string, string>> = {
  brown: "±1 %",
  red: "±2 %",
  green: "±0.5 %",
  blue: "±0.25 %",
  violet: "±0.1 %",
  gold: "±5 %",
  silver: "±10 %",
  none: "±20 %",
};
const multiplierOf = (c: string): number | undefined =>
  c === "gold"
    ? 0.1
    : c === "silver"
      ? 0.01
      : (colours as readonly string[]).includes(c)
        ? 10 ** (colours as readonly string[]).indexOf(c)
        : undefined;
const digitOf = (c: string): number => (colours as readonly string[]).indexOf(c);

const words = (said: string): string[] =>
  said
    .toLowerCase()
    .split(/[^a-z]+/)
    .filter((w) => w !== "")
    .map((w) => own(alias, w) ?? w);
const digits = (names: readonly string[], path: string): Read<number> => {
  const wrong = names.findIndex((n) => digitOf(n) < 0);
  return wrong >= 0
    ? bad(`${path} ${wrong + 1}`, "not-a-digit", names[wrong], `one of ${colours.join(", ")}`)
    : good(names.reduce((v, n) => 10 * v + digitOf(n), 0));
};
const multiplied = (base: number, c: string, path: string): Read<number> => {
  const m = multiplierOf(c);
  return m === undefined ? bad(path, "not-a-multiplier", c, `one of ${colours.join(", ")}, gold, silver`) : good(base * m);
};

function bands(c: readonly string[]): Read<Told> {
  if (c.length < 3 || c.length > 6) return bad("bands", "wrong-number", `${c.length} bands`, "three to six colours");
  const count = c.length >= 5 ? 3 : 2;
  const d = digits(c.slice(0, count), "band");
  if (!d.ok) return d;
  const v = multiplied(d.value, c[count], `band ${count + 1}`);
  if (!v.ok) return v;
  const tolerance = own(resistorTolerance, c[count + 1] ?? "none") ?? `unknown (${c[count + 1]})`;
  return good({
    value: printValue(v.value, "resistance"),
    tolerance,
    also: c.length === 5 ? "On an old four-band part a fifth band may tell its reliability: then the first two are the digits." : "",
  });
}
/** Source: practice of the 1930s; body, end, dot. */
function bodyEndDot(c: readonly string[]): Read<Told> {
  if (c.length < 3 || c.length > 4)
    return bad("colours", "wrong-number", `${c.length} colours`, "body, end, dot, and perhaps the other end (tolerance)");
  const d = digits(c.slice(0, 2), "colour");
  if (!d.ok) return d;
  const v = multiplied(d.value, c[2], "dot");
  if (!v.ok) return v;
  return good({
    value: printValue(v.value, "resistance"),
    tolerance: own(resistorTolerance, c[3] ?? "none") ?? "±20 %",
    also: "Where no dot is seen it has the body's colour.",
  });
}
const micaTolerance = (c: string | undefined): string =>
  c === undefined || c === "none"
    ? "±20 %"
    : c === "gold"
      ? "±5 %"
      : c === "silver"
        ? "±10 %"
        : digitOf(c) > 0
          ? `±${digitOf(c)} %`
          : "±20 %";
const micaVolts = (c: string | undefined): string =>
  c === undefined || c === "none" ? "500 V" : c === "gold" ? "1000 V" : c === "silver" ? "2000 V" : `${100 * digitOf(c)} V`;
/** Source: three dots and the six-dot significant figures read; the order of the lower row, and five dots, from memory. */
function micaDots(c: readonly string[]): Read<Told> {
  if (c.length === 3 || c.length === 5) {
    const d = digits(c.slice(0, 2), "dot");
    if (!d.ok) return d;
    const v = multiplied(d.value, c[2], "dot 3");
    if (!v.ok) return v;
    return good({
      value: printValue(v.value * 1e-12, "capacitance"),
      tolerance: `${micaTolerance(c[4])}, ${micaVolts(c[3])}`,
      also: "Read along the arrow.",
    });
  }
  if (c.length !== 6)
    return bad(
      "dots",
      "wrong-number",
      `${c.length} dots`,
      "three, five or six: top row from left to right, then the bottom row from right to left",
    );
  if (["black", "white", "silver"].includes(c[0])) {
    // the newer code: what it is, two digits; multiplier, tolerance, characteristic
    const d = digits(c.slice(1, 3), "dot");
    if (!d.ok) return d;
    const v = multiplied(d.value, c[3], "dot 4");
    if (!v.ok) return v;
    const kind = c[0] === "silver" ? "paper (a silver first dot)" : "mica";
    const alternative = digits(c.slice(0, 3), "dot");
    const old = alternative.ok ? multiplied(alternative.value, c[3], "dot 4") : undefined;
    return good({
      value: printValue(v.value * 1e-12, "capacitance"),
      tolerance: `${c[4] === "red" ? "±2 %" : micaTolerance(c[4])}, ${kind}`,
      also:
        old?.ok && c[0] !== "silver"
          ? `Under the older code, in which the first dot is a digit too, it would be ${printValue(old.value * 1e-12, "capacitance")}: a bridge tells.`
          : "",
    });
  }
  const d = digits(c.slice(0, 3), "dot");
  if (!d.ok) return d;
  const v = multiplied(d.value, c[3], "dot 4");
  if (!v.ok) return v;
  return good({ value: printValue(v.value * 1e-12, "capacitance"), tolerance: `${micaTolerance(c[4])}, ${micaVolts(c[5])}`, also: "" });
}
/** Source: a standard's summary table, read. */
const ceramicTc: Readonly<Record<string, string>> = {
  black: "0 (NP0)",
  brown: "-30",
  red: "-80",
  orange: "-150",
  yellow: "-220",
  green: "-330",
  blue: "-470",
  violet: "-750",
  grey: "+30",
  white: "+500, or +100 on older parts",
};
/** Source: letter codes of older tubular ceramics, read. */
const ceramicLetter: Readonly<Record<string, string>> = {
  W: "+470",
  A: "+100",
  B: "+30",
  C: "0 (NP0)",
  D: "-30",
  E: "-50",
  F: "-80",
  G: "-150",
  H: "-220",
  J: "-330",
  K: "-470",
  L: "-560",
  N: "-750",
};
/** Source: IEC 60062, from memory. */
const letterTolerance: Readonly<Record<string, string>> = {
  B: "±0.1 pF",
  C: "±0.25 pF",
  D: "±0.5 pF",
  F: "±1 %",
  G: "±2 %",
  H: "±2.5 %",
  J: "±5 %",
  K: "±10 %",
  M: "±20 %",
  N: "±30 %",
  Z: "-20 +80 %",
  P: "-0 +100 %",
  S: "-20 +50 %",
};
function ceramicDots(c: readonly string[]): Read<Told> {
  if (c.length !== 5)
    return bad("dots", "wrong-number", `${c.length} colours`, "temperature coefficient, two digits, multiplier, tolerance");
  const tc = own(ceramicTc, c[0]);
  if (!tc) return bad("dot 1", "not-a-coefficient", c[0], `one of ${Object.keys(ceramicTc).join(", ")}`);
  const d = digits(c.slice(1, 3), "dot");
  if (!d.ok) return d;
  // grey is a hundredth here, white a tenth
  const m = c[3] === "grey" ? 0.01 : c[3] === "white" ? 0.1 : multiplierOf(c[3]);
  if (m === undefined) return bad("dot 4", "not-a-multiplier", c[3], `one of ${colours.join(", ")}`);
  const small = d.value * m <= 10;
  const tolerance: Readonly<Record<string, string>> = small
    ? { black: "±2 pF", brown: "±0.1 pF", green: "±0.5 pF", grey: "±0.25 pF", white: "±1 pF" }
    : { black: "±20 %", brown: "±1 %", red: "±2 %", green: "±5 %", white: "±10 %" };
  return good({
    value: printValue(d.value * m * 1e-12, "capacitance"),
    tolerance: `${own(tolerance, c[4]) ?? `unknown (${c[4]})`}, ${tc} ppm/K`,
    also: "Tolerances from memory.",
  });
}
/** A code of digits and letters: 4K7J, 103M, 470JN. Source: IEC 60062 from memory; 470JN read. */
function letters(said: string): Read<Told> {
  // what stands behind it, such as volts, is told by itself
  const [text = ""] = said.trim().split(/\s+/);
  const three = /^(\d\d)(\d)([A-Z]?)$/.exec(text);
  if (three && !/^\d\d0/.test(text))
    return good({
      value: printValue(Number(three[1]) * 10 ** Number(three[2]) * 1e-12, "capacitance"),
      tolerance: letterTolerance[three[3]] ?? "not said",
      also:
        three[3] !== "" && "KM".includes(three[3])
          ? `As a resistor it would be ${three[1]}${three[2]} ${three[3] === "K" ? "kΩ" : "MΩ"}.`
          : "",
    });
  const rkm = /^(\d+)([RKMGpnu])(\d*)([A-Z]?)$/.exec(text);
  if (rkm) {
    const [, whole, unit, rest, t] = rkm;
    const factor = { R: 1, K: 1e3, M: 1e6, G: 1e9, p: 1e-12, n: 1e-9, u: 1e-6 }[unit] as number;
    const v = Number(`${whole}.${rest || 0}`) * factor;
    return good({
      value: printValue(v, "RKMG".includes(unit) ? "resistance" : "capacitance"),
      tolerance: letterTolerance[t] ?? "not said",
      also: unit === "M" ? "On some old American prints M is a thousand." : "",
    });
  }
  const plain = /^(\d+)([A-Z])([A-Z])$/.exec(text);
  if (plain && ceramicLetter[plain[3]])
    return good({
      value: printValue(Number(plain[1]) * 1e-12, "capacitance"),
      tolerance: `${letterTolerance[plain[2]] ?? "not said"}, ${ceramicLetter[plain[3]]} ppm/K`,
      also: "",
    });
  const round = /^(\d\d)0([A-Z])$/.exec(text);
  if (round)
    return good({
      value: printValue(Number(round[1]) * 1e-12, "capacitance"),
      tolerance: letterTolerance[round[2]] ?? "not said",
      also: `As plain picofarads it would be ${printValue(Number(`${round[1]}0`) * 1e-12, "capacitance")}: a bridge tells.`,
    });
  const decimal = /^0?\.(\d+)$/.exec(text);
  if (decimal)
    return good({
      value: printValue(Number(`0.${decimal[1]}`) * 1e-6, "capacitance"),
      tolerance: "not said",
      also: "A bare decimal on an old capacitor is microfarads.",
    });
  return bad("code", "not-a-code", said, "a code such as 4K7J, 4n7K, 103M or 470JN");
}

/** Leads of transformers by colour. Source: RMA/EIA, read. */
export const leadColours: readonly (readonly [where: string, colours: string])[] = [
  ["power: primary", "black and black; tapped: common black, tap black/yellow, end black/red"],
  ["power: high voltage", "red and red, centre tap red/yellow; older sets brown, or brown and black"],
  ["power: rectifier filament", "yellow and yellow, centre tap yellow/blue"],
  ["power: heaters", "green, tap green/yellow; second brown, tap brown/yellow; third slate, tap slate/yellow"],
  ["IF", "plate blue, B+ red, grid or diode green, return (AVC, ground) black"],
  ["output", "plate blue, B+ red, other plate brown or blue; secondary green and black"],
  ["interstage", "plate blue, B+ red, grid green, other grid yellow or green, return black"],
];
const readers = {
  bands: { says: "resistor, bands from one end", read: (s: string) => bands(words(s)) },
  "body-end-dot": { says: "resistor, body, end, dot", read: (s: string) => bodyEndDot(words(s)) },
  "mica-dots": {
    says: "mica capacitor, three, five or six dots (top row, then bottom row from right to left)",
    read: (s: string) => micaDots(words(s)),
  },
  "ceramic-dots": { says: "ceramic capacitor, five colours", read: (s: string) => ceramicDots(words(s)) },
  code: { says: "digits and letters", read: letters },
} as const;
export const markKinds = Object.entries(readers).map(([id, r]) => ({ id: id as keyof typeof readers, says: r.says }));

/**
 * What a mark says.
 *
 * @param kind which code
 * @param said colours by name, in order, or the code
 * @returns value, tolerance, and how else it may be read; or the place that is wrong
 * @source IEC 60062, RMA and JAN codes; each table says what was read and what is from memory
 */
export function tellMark(kind: string, said: string): Read<Told> {
  if (!Object.hasOwn(readers, kind)) return bad("kind", "no-kind", kind, `one of ${Object.keys(readers).join(", ")}`);
  return readers[kind as keyof typeof readers].read(said);
}

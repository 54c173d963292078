import type { End, PartKind } from "../../ask/drawn/circuit";
import type { Symbols } from "../../standards/symbols";

/**
 * Symbols as paths, drawn by us from what the standards say of them; a part lies along x, its middle at 0,0.
 *
 * @source IEC 60617 (formerly parts 2 to 5: earth, frame; coaxial pair; resistor, capacitor, inductor, crystal; diode; electronic tubes) and IEEE 315-1975
 *   (clauses 2.1 resistor, 2.2 capacitor, 6.2 inductor, 3.9 circuit return, 7 tubes, 9.1 fuse); both from memory
 */
export interface Shape {
  /** length along x between its leads, and what it reaches to either side */
  readonly length: number;
  readonly half: number;
  /** strokes as SVG path data */
  readonly strokes: string;
  /** closed and filled with the stroke's colour */
  readonly fill?: string;
  /** closed and filled with the paper, under the strokes */
  readonly ground?: string;
}

const zigzag = "M-21 0l3.5 -8l7 16l7 -16l7 16l7 -16l7 16l3.5 -8";
const resistor = (s: Symbols): Shape =>
  s === "IEC 60617" ? { length: 44, half: 9, strokes: "M-22 -8h44v16h-44z" } : { length: 42, half: 9, strokes: zigzag };
/** Across the symbol from lower left to upper right: an arrow for what is turned in use, a bar for what is set once. */
const arrow = "M-16 16L16 -16M16 -16l-9 2M16 -16l-2 9";
const preset = "M-15 15L15 -15M10 -20L20 -10";
const plates = "M-4 -14v28M4 -14v28";
/** IEEE 315: the second plate bent, towards the outside foil or the negative side. */
const bent = "M-4 -14v28M8 -14Q1 0 8 14";
const capacitor = (s: Symbols): Shape =>
  s === "IEC 60617" ? { length: 8, half: 14, strokes: plates } : { length: 8, half: 14, strokes: `${bent}M4.5 0H8` };
/** The plus stands on the side of `from`. */
const plus = "M-16 -13h8M-12 -17v8";
const bumps = (n: number, r: number): string => `M${-n * r} 0${`a${r} ${r} 0 0 1 ${2 * r} 0`.repeat(n)}`;
const coil: Shape = { length: 56, half: 9, strokes: bumps(4, 7) };
const circle = (r: number): string => `M${-r} 0a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1 ${-2 * r} 0`;
const choke: Shape = { length: 56, half: 15, strokes: `${bumps(4, 7)}M-28 -12h56M-28 -15.5h56` };

/** IEC 60617: a cross in the bulb; IEEE 315: its filament. */
const lamp = (s: Symbols): Shape => ({
  length: 36,
  half: 18,
  strokes: `${circle(18)}${s === "IEC 60617" ? "M-12.7 -12.7l25.4 25.4M-12.7 12.7l25.4 -25.4" : "M-18 0H-7C-9 -15 9 -15 7 0H18"}`,
});

/** The symbol of a part in one of the standards. */
export function shapeOf(kind: PartKind, symbols: Symbols): Shape {
  const r = resistor(symbols);
  const c = capacitor(symbols);
  switch (kind) {
    case "resistor":
      return r;
    case "rheostat":
      return { length: r.length, half: 18, strokes: `${r.strokes}M-18 16L18 -16M18 -16l-9 2M18 -16l-4 8` };
    case "capacitor":
      return c;
    case "electrolytic":
      return { length: 8, half: 18, strokes: `${c.strokes}${plus}` };
    case "variable-capacitor":
      return { length: 8, half: 18, strokes: `${c.strokes}${arrow}` };
    case "trimmer":
      return { length: 8, half: 20, strokes: `${c.strokes}${preset}` };
    case "coil":
      return coil;
    case "slug-coil":
      return { length: 56, half: 20, strokes: `${coil.strokes}M-22 -12h8M-10 -12h8M2 -12h8M14 -12h8${preset}` };
    case "choke":
      return choke;
    case "tank":
      return {
        length: 64,
        half: 24,
        strokes: `M-32 0V-12H-28m56 0H32V0${`M-28 -12${"a7 7 0 0 1 14 0".repeat(4)}`}M-32 0V14H-4M4 14H32V0M-4 3v22M4 3v22`,
      };
    case "crystal":
      return { length: 24, half: 15, strokes: "M-12 -11v22M12 -11v22M-6 -15h12v30h-12z" };
    case "diode":
      return { length: 20, half: 12, strokes: "M-10 -11v22L10 0zM10 -11v22" };
    case "tube-diode":
      return { length: 40, half: 20, strokes: `${circle(20)}M-20 0H-7M-7 -10v20M20 0H8M8 -8v16q-5 0 -5 -4` };
    case "gas-tube":
      return {
        length: 40,
        half: 20,
        strokes: `${circle(20)}M-20 0H-7M-7 -10v20M20 0H14M14 0a4 4 0 1 0 -8 0a4 4 0 1 0 8 0`,
        fill: "M2 13a2.5 2.5 0 1 0 .1 0z",
      };
    case "lamp":
      return lamp(symbols);
    case "fuse":
      return symbols === "IEC 60617"
        ? { length: 40, half: 8, strokes: "M-20 -7h40v14h-40zM-20 0h40" }
        : { length: 40, half: 8, strokes: "M-20 0a10 10 0 0 1 20 0a10 10 0 0 0 20 0" };
    case "switch":
      return { length: 32, half: 14, strokes: "M-16 0L13 -12M16 0v-3" };
    case "meter":
      return { length: 36, half: 18, strokes: `${circle(18)}M-8 9L8 -9M8 -9l-7 1.5M8 -9l-2 7` };
    case "cable":
      return { length: 72, half: 12, strokes: "M-36 0H36M-26 -9H26M-26 9H26M-26 -9a4 9 0 0 0 0 18M26 -9a4 9 0 0 1 0 18a4 9 0 0 1 0 -18" };
    case "wire":
      return { length: 0, half: 0, strokes: "" };
    case "block":
      return { length: 0, half: 0, strokes: "" };
  }
}

/** Signs that a lead ends in; the lead comes from above to 0,0. A frame is never drawn as earth, nor the other way round. */
export const endShapes: Readonly<Record<End, string>> = {
  // rake: a bar with three slanted strokes
  chassis: "M0 0v10M-14 10h28M-14 10l-6 10M0 10l-6 10M14 10l-6 10",
  "live-chassis": "M0 0v10M-14 10h28M-14 10l-6 10M0 10l-6 10M14 10l-6 10",
  // common connection: an open triangle that points down
  "b-minus": "M0 0v8M-11 8h22L0 22z",
  earth: "M0 0v8M-14 8h28M-9 14h18M-4 20h8",
  terminal: "",
  onward: "",
};
/** Whether a lead ends in a sign of a common side. */
export const isSign = (end: End | undefined): boolean => end !== undefined && endShapes[end] !== "";
/** How far the sign of a cable's braid reaches from the cable's middle: below one that lies, to the left and down of one that stands. */
export const braidPx = { below: 9 + 6 + 22, left: 9 + 8 + 20, down: 24 } as const;
/** The sign of a cable's braid, from the cable's middle, as the cable lies or stands. */
export const braidShape = (end: End, turned: boolean): { readonly strokes: string; readonly at: readonly [number, number] } =>
  turned ? { strokes: `M8 0H0${endShapes[end]}`, at: [-17, 0] } : { strokes: `M0 -6V0${endShapes[end]}`, at: [0, 15] };
export const endHalf = 20;
export const endPx = 24;

/** A tube round 0,0: plate above, cathode below, one row of dashes for each grid, the first grid's lead from the left. */
export const tubeRadius = 32;
export function tubeShape(grids: number): string {
  const r = tubeRadius;
  const rows = Array.from({ length: grids }, (_, i) => (grids === 1 ? 0 : 10 - (20 * i) / (grids - 1)));
  const dashes = rows.map((y) => `M-17 ${y}h8M-4 ${y}h8M9 ${y}h8`).join("");
  return `${circle(r)}${dashes}M0 ${-r}V-18M-14 -18h28M-14 24q0 -6 6 -6h16q6 0 6 6M0 18V${r}M${-r} 0H-25V${rows[0]}H-17`;
}
export const screenLead = (grids: number): string => (grids < 2 ? "" : `M17 ${10 - 20 / (grids - 1)}H25V0H${tubeRadius}`);

/** The sign of danger: a triangle with a bolt, 20 wide, 18 high, its middle at 0,0. */
export const dangerOutline = "M0 -10L11 9H-11z";
export const dangerBolt = "M1.5 -5L-3.5 2.5H0L-1.5 7.5L3.8 0H.4z";

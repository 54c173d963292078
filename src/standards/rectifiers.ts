/** How a row of a table of tubes came here. READ: seen in the published text, or on a page that quotes it; from memory: of the maker's manual. */
export type Seen = "read" | "read on a page that quotes it" | "from memory";

export interface Rectifier {
  readonly type: string;
  /** drop at a current per plate, V and A */
  readonly dropV: number;
  readonly atA: number;
  /** highest peak inverse, V */
  readonly inverseV?: number;
  /** highest steady peak current per plate, A */
  readonly peakA?: number;
  /** highest DC, A */
  readonly dcA?: number;
  /** largest first capacitor, F */
  readonly firstF?: number;
  readonly heater: string;
  /** whether it conducts within a few seconds, before the other tubes draw current */
  readonly quick: boolean;
  readonly source: string;
  readonly seen: Seen;
}
const manuals = "tube makers' receiving-tube manuals";

/** Vacuum rectifiers and silicon. Add a row with its source; a type that is not here is typed in by its drop and current. */
export const rectifiers: readonly Rectifier[] = [
  {
    type: "5Y3GT or 80",
    dropV: 50,
    atA: 0.125,
    inverseV: 1400,
    peakA: 0.4,
    dcA: 0.125,
    firstF: 20e-6,
    heater: "5 V, 2 A",
    quick: true,
    source: "drop and largest first capacitor on pages that quote the sheet; inverse and peak from memory",
    seen: "read on a page that quotes it",
  },
  {
    type: "5U4G",
    dropV: 58,
    atA: 0.225,
    inverseV: 1550,
    peakA: 0.8,
    dcA: 0.225,
    firstF: 40e-6,
    heater: "5 V, 3 A",
    quick: true,
    source: `${manuals}; first capacitor of its class read`,
    seen: "from memory",
  },
  {
    type: "5R4GY",
    dropV: 67,
    atA: 0.25,
    inverseV: 2800,
    dcA: 0.25,
    heater: "5 V, 2 A",
    quick: true,
    source: "drop and inverse on a page that quotes the sheet (2800 V at 150 mA)",
    seen: "read on a page that quotes it",
  },
  {
    type: "5T4",
    dropV: 45,
    atA: 0.225,
    dcA: 0.225,
    heater: "5 V, 2 A",
    quick: true,
    source: "a page that quotes the sheet",
    seen: "read on a page that quotes it",
  },
  {
    type: "5V4G",
    dropV: 25,
    atA: 0.175,
    inverseV: 1400,
    dcA: 0.175,
    heater: "5 V, 2 A",
    quick: false,
    source: manuals,
    seen: "from memory",
  },
  {
    type: "5Z4",
    dropV: 20,
    atA: 0.125,
    inverseV: 1400,
    dcA: 0.125,
    heater: "5 V, 2 A",
    quick: false,
    source: manuals,
    seen: "from memory",
  },
  {
    type: "6X4",
    dropV: 22,
    atA: 0.07,
    inverseV: 1250,
    peakA: 0.245,
    dcA: 0.07,
    heater: "6.3 V, 0.6 A",
    quick: false,
    source: "inverse and peak read in a maker's sheet; drop on a page that quotes it",
    seen: "read",
  },
  {
    type: "6X5GT",
    dropV: 22,
    atA: 0.07,
    inverseV: 1250,
    peakA: 0.21,
    dcA: 0.07,
    heater: "6.3 V, 0.6 A",
    quick: false,
    source: manuals,
    seen: "from memory",
  },
  {
    type: "35W4 or 35Z5",
    dropV: 21,
    atA: 0.2,
    inverseV: 330,
    peakA: 0.6,
    dcA: 0.1,
    firstF: 40e-6,
    heater: "35 V, 0.15 A",
    quick: false,
    source: manuals,
    seen: "from memory",
  },
];
/** Silicon stands for a diode of 1000 V; two in series hold more. Source: data sheets of the usual parts, from memory. */
export const siliconDropV = 0.9;
export const siliconInverseV = 1000;

/** Names that a person chooses by; `silicon` and `other` stand beside the table. */
export const rectifierNames = [...rectifiers.map((r) => r.type), "silicon", "other"] as const;
export const rectifierByType = (type: string): Rectifier | undefined => rectifiers.find((r) => r.type === type);

/** Gas regulator tubes. Source: tube makers' receiving-tube manuals, from memory; the octal row of volts and currents was read. */
export interface GasRegulator {
  readonly type: string;
  readonly operatingV: number;
  /** supply that surely strikes it, V */
  readonly startV: number;
  readonly leastA: number;
  readonly mostA: number;
  /** how far its volts move over that range, V */
  readonly regulationV: number;
  readonly seen: Seen;
}
/** By type: operating V, starting V, most A, regulation V, and where that comes from. All need 5 mA at least. */
const gasRows: readonly (readonly [type: string, operatingV: number, startV: number, mostA: number, regulationV: number, seen: Seen])[] = [
  ["0A2", 150, 185, 0.03, 2, "from memory"],
  ["0B2", 108, 133, 0.03, 1, "from memory"],
  ["0C2", 75, 120, 0.03, 4.5, "from memory"],
  ["0A3 or VR75", 75, 105, 0.04, 5, "read on a page that quotes it"],
  ["0B3 or VR90", 90, 125, 0.04, 6, "read on a page that quotes it"],
  ["0C3 or VR105", 105, 133, 0.04, 4, "read on a page that quotes it"],
  ["0D3 or VR150", 150, 185, 0.04, 5.5, "read on a page that quotes it"],
];
export const gasRegulators: readonly GasRegulator[] = gasRows.map(([type, operatingV, startV, mostA, regulationV, seen]) => ({
  type,
  operatingV,
  startV,
  leastA: 0.005,
  mostA,
  regulationV,
  seen,
}));
/** More than this across a gas tube makes it oscillate, F. Source: a tube page, read. */
export const gasShuntMostF = 0.1e-6;
export const gasRegulatorByType = (type: string): GasRegulator | undefined => gasRegulators.find((r) => r.type === type);

/** Coaxial cables by type. `read`: seen in a published table; `memory`: recalled, check before relying on it. */
export interface Cable {
  readonly type: string;
  readonly impedanceOhm: number;
  readonly velocityRatio: number;
  readonly printedPfPerFt: number;
  readonly source: string;
  readonly flag: "read" | "memory";
}
type Whence = readonly [source: string, flag: Cable["flag"]];
const read: Whence = ["compiled coaxial-cable data sheet, a public copy", "read"];
const recalled = (source: string): Whence => [source, "memory"];
const row = (type: string, impedanceOhm: number, velocityRatio: number, printedPfPerFt: number, [source, flag]: Whence): Cable => ({
  type,
  impedanceOhm,
  velocityRatio,
  printedPfPerFt,
  source,
  flag,
});

export const cables: readonly Cable[] = [
  row("RG-58A/U", 50, 0.66, 31, read),
  row("RG-58C/U", 50, 0.66, 31, read),
  row("RG-8A/U", 52, 0.66, 30, read),
  row("RG-8/U foam", 50, 0.78, 26, read),
  row("RG-213/U", 50, 0.66, 30.8, recalled("MIL-C-17/74")),
  row("RG-59B/U", 75, 0.66, 21, read),
  row("RG-11A/U", 75, 0.66, 21, read),
  row("RG-174/U", 50, 0.66, 31, read),
  row("RG-223/U", 50, 0.66, 31, read),
  row("RG-62A/U", 93, 0.84, 13.5, recalled("MIL-C-17")),
  row("RG-6/U foam", 75, 0.78, 17, recalled("typical maker data")),
];

/** A cable of the table by its type, however its letters are cased. */
export const cableNamed = (type: string): Cable | undefined => cables.find((c) => c.type.toLowerCase() === type.toLowerCase());

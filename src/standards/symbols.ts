/** The standards whose symbols a circuit may be drawn in. */
export const symbolSets = ["IEC 60617", "IEEE 315"] as const;
export type Symbols = (typeof symbolSets)[number];

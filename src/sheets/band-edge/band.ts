import { bandOver } from "../../standards/bands";
import type { Asked } from "./ask";

/** Whose edges count, and what they are, Hz. */
export interface Band {
  readonly lowHz: number;
  readonly highHz: number;
  readonly said: string;
}
/**
 * The band of the licence that these zero beats are on, or the owner's own edges.
 *
 * @param x plain inputs
 * @returns edges, Hz, not a number where the owner has not stated one; undefined where the licence has no band there; `unstated` while neither a licence nor the Region is stated: then nobody's count
 * @source tables of src/standards/bands.ts
 */
export function bandFor(x: Asked): Band | "unstated" | undefined {
  const licence = x.licence === "by Region" ? x.region : x.licence;
  if (licence === "unstated") return "unstated";
  if (licence === "own") {
    const { lowEdge: lowHz = Number.NaN, highEdge: highHz = Number.NaN } = x;
    return { lowHz, highHz, said: "edges as the owner stated them" };
  }
  const f = x.points.map((p) => p.frequency);
  const band = bandOver(licence, Math.min(...f), Math.max(...f));
  return band && { lowHz: band.lowHz, highHz: band.highHz, said: `${band.band}, ${licence}: ${band.source}, ${band.flag}` };
}

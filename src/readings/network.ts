import { bad, good, type Read } from "../units/issue";
import { mostSweepPoints, type Sweep } from "./sweep";

/** Network data as a Touchstone file states them, in SI: S is plain, Z in ohm, Y in siemens; H and G mixed. */
export interface Network {
  readonly ports: number;
  readonly parameter: "S" | "Z" | "Y" | "H" | "G";
  readonly format: "MA" | "DB" | "RI";
  readonly referenceOhm: readonly number[];
  readonly frequencyHz: Float64Array;
  /** re[row * ports + column][point] */
  readonly re: readonly Float64Array[];
  readonly im: readonly Float64Array[];
  readonly noise: readonly {
    readonly frequencyHz: number;
    readonly minimumDb: number;
    readonly sourceMagnitude: number;
    readonly sourceDeg: number;
    readonly resistanceOhm: number;
  }[];
  readonly version: 1 | 2;
  readonly resolutionHz: number;
  readonly warnings: readonly string[];
}

/**
 * The transmission of a two-port (S21), or the reflection of a one-port (S11), as a sweep.
 *
 * @param n network data
 * @param name file, for the error
 * @returns the sweep; data other than S are refused
 * @source definition of S parameters
 */
export function sweepOfNetwork(n: Network, name: string): Read<Sweep> {
  if (n.parameter !== "S") return bad(name, "not-s", n.parameter, "S parameters for a sweep");
  if (n.frequencyHz.length > mostSweepPoints)
    return bad(name, "too-many", `${n.frequencyHz.length} points`, `at most ${mostSweepPoints} points`);
  const k = n.ports >= 2 ? n.ports : 0;
  const levelDb = n.frequencyHz.map((_, p) => 20 * Math.log10(Math.max(1e-15, Math.hypot(n.re[k][p], n.im[k][p]))));
  const odd = levelDb.findIndex((v) => !Number.isFinite(v));
  if (odd >= 0) return bad(`${name} point ${odd + 1}`, "out-of-range", String(levelDb[odd]), "a level within the range of numbers");
  return good({
    frequencyHz: n.frequencyHz,
    levelDb,
    complex: { re: n.re[k], im: n.im[k] },
    resolutionHz: n.resolutionHz,
    quantity: n.ports >= 2 ? "S21" : "S11",
    ...(n.ports >= 2 ? {} : { reflection: true }),
    warnings: n.warnings,
  });
}

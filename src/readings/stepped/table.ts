import { bad, good, type Read } from "../../units/issue";
import { readTable } from "../delimited";
import type { SteppedPlan } from "./plan";

/** One step of a sweep, as it was read. */
export interface SteppedPoint {
  readonly frequencyHz: number;
  /** of the set's response, dB: output at held level, or how much less the generator had to give */
  readonly levelDb: number;
  /** standard uncertainty of the level, dB */
  readonly uDb: number;
  readonly volts: number;
  readonly generatorDbm: number;
}

/**
 * The head of a sweep's file: what was held, and its columns.
 *
 * @param plan what is stepped
 * @param at when it began
 * @param by by which instruments
 * @returns lines, the last one ended
 * @source house frame
 */
export function tableHead(plan: SteppedPlan, at: string, by: string): string {
  const { modulation: m } = plan;
  const how = plan.holds === "level" ? `generator held at ${plan.levelDbm} dBm` : "output held, generator raised";
  return [
    `# stepped by generator and meter, ${at}`,
    `# ${by}`,
    `# ${how}; AVC ${plan.avc}; ${m ? `AM ${m.percent} % at ${m.toneHz} Hz` : "no modulation"}; ${plan.settleS} s to settle, ${plan.readingsCount} readings a point`,
    "frequency Hz,level dB,uncertainty dB,output V,generator dBm",
    "",
  ].join("\n");
}
export const tableRow = (p: SteppedPoint): string =>
  `${[String(p.frequencyHz), p.levelDb.toFixed(3), p.uDb.toFixed(3), p.volts.toPrecision(6), p.generatorDbm.toFixed(2)].join(",")}\n`;

/**
 * Points of a sweep's file that was broken off.
 *
 * @param text the file, whose last line may be torn
 * @param name of the file, for the issue
 * @param plan what is to be stepped now: the points must be of it
 * @returns the points that it has, or the located issue
 * @source house frame
 */
export function readStepped(text: string, name: string, plan: SteppedPlan): Read<readonly SteppedPoint[]> {
  const whole = text.slice(0, text.lastIndexOf("\n") + 1);
  const rows = whole.split("\n").filter((l) => /^[-+\d]/.test(l));
  if (rows.length === 0) return good([]);
  const head = tableHead(plan, "", "").split("\n")[2];
  if (!whole.includes(head))
    return bad(name, "another-sweep", whole.split("\n")[2] ?? "", `a sweep that was stepped the same way (${head.slice(2)})`);
  // readings of numbers need two lines to tell their separator
  const table = readTable(new TextEncoder().encode(rows.length > 1 ? whole : `${whole}${rows[0]}\n`), name);
  if (!table.ok) return table;
  const [f, level, u, volts, dbm] = table.value.columns;
  if (dbm === undefined) return bad(name, "another-table", `${table.value.columns.length} columns`, "the five columns of a stepped sweep");
  const points = Array.from({ length: rows.length }, (_, i) => ({
    frequencyHz: f.values[i],
    levelDb: level.values[i],
    uDb: u.values[i],
    volts: volts.values[i],
    generatorDbm: dbm.values[i],
  }));
  const other = points.find((p) => !plan.frequencyHz.includes(p.frequencyHz));
  if (other) return bad(name, "another-sweep", `${other.frequencyHz} Hz`, "points of the sweep that is asked for: the same ends and count");
  return good(points);
}

import type { Stages } from "./line-up/place";
import { stage } from "./patterns/build";

const orders = ["First", "Second", "Third", "Fourth"];
/** What tells the route of one set from another's. */
export interface Plan {
  readonly cans: number;
  readonly rf: number;
  readonly filter: "no" | "yes" | "crystal";
  readonly bfo: boolean;
  readonly two: boolean;
}

/**
 * Stages of a set in the order of the signal.
 *
 * @param plan how many of each, and what it has
 * @returns every stage; the first audio among them, which stands only where a tube serves it
 * @source house rule
 */
export function stagesOf({ cans, rf, filter, bfo, two }: Plan): Stages {
  const out: Stages = [stage("antenna", "antenna", "Antenna", "terminal", "24", "28")];
  for (let i = 1; i <= rf; i++)
    out.push(stage(i === 1 ? "rf" : `rf${i}`, "rf", rf === 1 ? "RF stage" : `${orders[i - 1]} RF stage`, "not stated", "24", "25", "13"));
  if (two) out.push(stage("mixer1", "mixer", "First mixer", "fixed oscillator", "13", "14"));
  out.push(stage("mixer", "mixer", two ? "Second mixer" : "Mixer", "not stated", "13", "14", "31a"));
  out.push(stage("oscillator", "oscillator", "Oscillator", "tuned", "14", "23", "26"));
  for (let i = 1; i <= cans; i++) {
    const label = cans === 1 ? "IF can" : `${orders[i - 1]} IF can`;
    out.push(stage(`can${i}`, "can", label, `T${i}`, ...(i === 1 ? ["20", "31a"] : ["20"])));
    if (i === 1 && filter === "yes") out.push(stage("filter", "filter", "Ceramic filter", "ladder", "18", "20"));
    if (i === 1 && filter === "crystal") out.push(stage("filter", "filter", "Crystal filter", "crystal and phasing", "18", "21"));
    if (i < cans) out.push(stage(`if${i}`, "if-tube", cans === 2 ? "IF tube" : `${orders[i - 1]} IF tube`, "not stated", "13"));
  }
  out.push(stage("detector", "detector", "Detector and AVC", "not stated", "12", "15", "27"));
  if (bfo) out.push(stage("bfo", "bfo", "BFO", "not stated", "22"));
  // the detector's own tube is often the first audio as well: a stage of its own stands only where a tube serves it
  out.push(stage("audio", "audio", "First audio", "not stated", "12", "29b"));
  out.push(stage("output", "audio", "Output", "not stated", "12", "29b"));
  out.push(stage("speaker", "speaker", "Loudspeaker", "not stated", "33a"));
  out.push(stage("supply", "supply", "Supply", "rectifier and filter", "03", "09", "35"));
  return out;
}
/**
 * Steps of the job that a stage of a kind belongs to.
 *
 * @param kind of stage
 * @returns numbers of the steps, as the usual route has them
 * @source house rule
 */
export function stepsOfKind(kind: string): readonly string[] {
  // a stage of an accessory stands on no route of the set's own
  if (kind === "accessory") return ["31c", "31d"];
  return stagesOf({ cans: 2, rf: 1, filter: "crystal", bfo: true, two: false }).find((s) => s.kind === kind)?.steps ?? [];
}

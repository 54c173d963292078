import type { Refuse } from "../../ask/declare";
import type { Issue } from "../../units/issue";
import { printValue } from "../../units/print";
import type { Asked } from "./ask";

const hz = (v: number): string => printValue(v, "frequency");
const farad = (v: number): string => printValue(v, "capacitance");
/** Band, IF and gang that can't go together. */
function bandIssue(b: Asked, issue: Refuse): Issue | undefined {
  if (!(b.high > b.low * 1.02)) return issue("high", "crossed", hz(b.high), `a frequency well above low, ${hz(b.low)}`);
  if (!(b.gangHigh > b.gangLow)) return issue("gangHigh", "crossed", farad(b.gangHigh), "more than gangLow");
  if (b.intermediate > b.low && b.intermediate < b.high)
    return issue(
      "intermediate",
      "inside-the-band",
      hz(b.intermediate),
      "an IF outside the band: inside it the set would receive its own IF",
    );
  if (b.oscillator === "below" && b.low <= b.intermediate)
    return issue("oscillator", "through-nothing", "below", `above, since ${hz(b.low)} minus the IF is zero or below`);
  if (b.oscillator === "below" && 2 * b.intermediate > b.low && 2 * b.intermediate < b.high)
    return issue(
      "oscillator",
      "oscillator-on-the-if",
      "below",
      `above: below it would run on the IF itself where the dial says ${hz(2 * b.intermediate)}, and come through as a signal`,
    );
  const ratio = Math.sqrt(b.gangHigh / b.gangLow);
  if (ratio < b.high / b.low)
    return issue(
      "gangHigh",
      "gang-too-small",
      `${farad(b.gangLow)} to ${farad(b.gangHigh)}`,
      `a gang whose capacitance rises over ${((b.high / b.low) ** 2).toFixed(1)} times: this one covers at most ${ratio.toFixed(2)} to one in frequency`,
    );
  const wanted = b.padderLayout === "no padder" ? 2 : 3;
  const places = new Set(b.exactAt.map((r) => r.at));
  if (
    b.points === "own" &&
    (b.exactAt.length !== wanted || places.size !== wanted || [...places].some((f) => f < 0.9 * b.low || f > 1.1 * b.high))
  )
    return issue(
      "exactAt",
      "not-these-points",
      b.exactAt.map((r) => hz(r.at)).join(", ") || "none",
      `${wanted} different frequencies of this band${wanted === 2 ? ", since there is no padder" : ""}`,
    );
  return undefined;
}
/** Readings that are not of this band, or say nothing. */
function rowIssue(b: Asked, issue: Refuse): Issue | undefined {
  const at = (table: string, i: number, code: string, read: string, expected: string): Issue =>
    issue(`${table} row ${i + 1}`, code, read, expected);
  const empty = b.readings.findIndex((r) => !Number.isFinite(r.received) && !Number.isFinite(r.counted));
  if (empty >= 0)
    return at(
      "readings",
      empty,
      "nothing-read",
      hz(b.readings[empty].dial),
      "what is received at the mark, or the oscillator by a counter",
    );
  const side = b.oscillator === "above" ? 1 : -1;
  const off = (r: Asked["readings"][number]): number => (Number.isFinite(r.counted) ? r.counted - side * b.intermediate : r.received);
  const far = b.readings.findIndex((r) => r.dial < 0.9 * b.low || r.dial > 1.1 * b.high || Math.abs(off(r) / r.dial - 1) > 0.2);
  if (far >= 0) {
    const r = b.readings[far];
    const counted = Number.isFinite(r.counted);
    return at(
      "readings",
      far,
      "not-on-this-band",
      `${hz(r.dial)} and ${hz(counted ? r.counted : r.received)}`,
      counted
        ? `a dial mark of this band, and the oscillator near ${hz(r.dial + side * b.intermediate)}`
        : "a dial mark of this band, and what is received near it; 2 IF away it would be the image",
    );
  }
  const blind = b.peaks.findIndex((r) => (r.peaksAt > 0 ? Math.abs(r.peaksAt / r.dial - 1) > 0.3 : !Number.isFinite(r.needs)));
  if (blind >= 0)
    return at(
      "peaks",
      blind,
      "no-peak",
      b.peaks[blind].peaksAt > 0 ? hz(b.peaks[blind].peaksAt) : "nothing",
      "the frequency of the peak, within 30 % of the mark, or what the trimmer needs in pF",
    );
  const idle = b.trials.findIndex((r) => r.turns === 0 || Math.abs(r.before / r.dial - 1) > 0.2 || Math.abs(r.after / r.dial - 1) > 0.2);
  if (idle >= 0)
    return at(
      "trials",
      idle,
      "no-trial",
      String(b.trials[idle].turns),
      "turns other than 0, and what the same mark received before and after",
    );
  return undefined;
}
/**
 * What can't be answered from these inputs.
 *
 * @param b inputs
 * @param issue makes an issue at an input
 * @returns the first of them; undefined where all is well
 * @source house rule
 */
export const refused = (b: Asked, issue: Refuse): Issue | undefined => bandIssue(b, issue) ?? rowIssue(b, issue);

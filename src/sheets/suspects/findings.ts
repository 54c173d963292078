import { inside } from "../../ask/declare";
import type { NextTest } from "../../infer/stage/next-tests";
import type { Ranked, Ranking } from "../../infer/stage/rank-causes";
import { nodes } from "../../physics/tube-stage";
import { printChance, printValue } from "../../units/print";
import { anded, upperFirst } from "../../units/sentence";
import type { Asked, Put } from "./ask";
import { isPentode, ohmsLaw, positiveGrid, stageOf, voltsOf } from "./solve";

const named = (c: Ranked): string => `${c.fault.says}${c.size ? `, ${c.size}` : ""} (${printChance(c.probability)})`;
/** With fewer than three pins read, or two of a triode, what is to be read first; undefined otherwise. Source: house rule. */
export const fewReadings = (x: Asked): string | undefined => {
  const read = Object.keys(voltsOf(x));
  if (read.length >= (isPentode(x) ? 3 : 2) || x.tests.length > 0) return undefined;
  const missing = nodes.filter((n) => !read.includes(n) && (n !== "screen" || isPentode(x)));
  return `Only the ${read.join(" and ")} ${read.length > 1 ? "were" : "was"} read: read ${anded(missing)} as well.`;
};
/** Bits under which a test is not worth the trouble; and the chance of no fault from which on no test is asked for. */
const [littleBits, soundEnough] = [0.05, 0.5] as const;
const isSound = (r: Ranking): boolean => r.causes[0].fault.id === "none-visible";
/** The next test, where one is worth making. Source: house rule. */
export const worthIt = (r: Ranking): NextTest | undefined => {
  const [next] = r.next;
  if (!next || next.bits <= littleBits || (isSound(r) && r.causes[0].probability > soundEnough)) return undefined;
  return next;
};
const unexplained = (r: Ranking): string =>
  `No single fault explains these readings: the best, ${r.causes[0].fault.says}, at its best size, still misses ${r.worstAt ?? "a test"}${r.worstMiss >= 1.5 ? ` by ${r.worstMiss.toFixed(r.worstMiss < 3 ? 1 : 0)} times its error` : ", and the others with it"}.`;

/**
 * What explains the readings, and what to measure next, as one sentence.
 *
 * @param x inputs
 * @param r their ranking
 * @returns the sentence; a positive grid is said before all else
 * @source house rule
 */
export function headlineOf(x: Asked, r: Ranking): string {
  const grid = positiveGrid(x);
  const off = grid === undefined ? "" : `Switch off now: the grid is at ${printValue(Number(grid.toPrecision(3)), "voltage")}. `;
  const few = fewReadings(x);
  if (few)
    return `${off}${few} Of the usual causes, ${anded(
      r.causes
        .filter((c) => c.fault.id !== "none-visible")
        .slice(0, 3)
        .map((c) => c.fault.says.split(":")[0]),
    )} come to mind first; don't replace anything on this alone.`;
  const next = worthIt(r);
  const then = next ? ` Measure next: ${next.test.says}.` : "";
  if (!r.explained) return `${off}${unexplained(r)} Read them once more; there may be two faults.`;
  const [top] = r.causes;
  const others = r.ties.filter((c) => c !== top);
  if (isSound(r)) {
    const hidden =
      others.length > 0 ? ` ${others.length === 1 ? "One fault" : `${others.length} faults`} wouldn't show in them: see below.` : "";
    return `No fault shows in these readings (${printChance(top.probability)}).${hidden}${then}`;
  }
  if (others.length === 0) return `${off}Most likely: ${named(top)}.${then}`;
  return `${off}A tie: ${[top, ...others].map(named).join("; or ")}. These readings can't tell them apart.${then}`;
}

/**
 * What the readings amount to, the test that tells most, and what harms the set meanwhile.
 *
 * @param x inputs
 * @param r their ranking
 * @param put takes each finding
 * @source house rule
 */
export function findingsOf(x: Asked, r: Ranking, put: Put): void {
  aboutCauses(x, r, put);
  aboutNext(x, r, put);
  const grid = positiveGrid(x);
  if (grid !== undefined) aboutGrid(x, r, grid, put);
  aboutScreenHeat(x, r, put);
  if (!isPentode(x) && x.readings.some((f) => nodes[f.electrode] === "screen"))
    put(
      "suspects-no-screen",
      "check",
      "A screen was read, but this tube has none: the reading is left out. The type, the socket or the pin may be wrong.",
    );
}
/** Too few readings, two faults, nothing, or the causes. */
function aboutCauses(x: Asked, r: Ranking, put: Put): void {
  const [top, few] = [r.causes[0], fewReadings(x)];
  if (few) {
    put("suspects-few-readings", "act", `${few} With so little to go on, any order of causes is a guess.`, {
      do: "Clip the meter on with the set off and discharged, stand clear, switch on; B+ at this stage first.",
    });
  } else if (!r.explained) {
    put("suspects-two-faults", "check", `${unexplained(r)} So the order below means little.`, {
      do: "Read the pins once more, noting range and pin; then look for two faults, the supply and the resistors with the power off first.",
    });
  } else if (isSound(r)) {
    const others = r.ties.filter((c) => c !== top).map((c) => c.fault.says);
    const hidden =
      others.length > 0 ? ` Just as likely, given how common each is: ${others.join("; ")}. DC on these pins can't show them.` : "";
    put("suspects-none-visible", "note", `${upperFirst(top.fault.says)}.${hidden}`, { hazards: inside });
  } else
    put(`suspects-${top.fault.id}`, "act", `${upperFirst(r.ties.map(named).join("; or "))}.`, {
      do: worthIt(r)
        ? "Replace nothing on this alone: make the next measurement first."
        : "Set unplugged, discharged and measured: mend or replace it, then read the stage again.",
    });
}
function aboutNext(x: Asked, r: Ranking, put: Put): void {
  const next = worthIt(r);
  if (!next || !r.explained || fewReadings(x)) return;
  const then = r.next[1] && r.next[1].bits > littleBits ? `; after that ${r.next[1].test.says}` : "";
  put(`suspects-next-${next.test.id}`, isSound(r) ? "check" : "act", `The test that would tell you most now: ${next.test.says}${then}.`, {
    do: `${upperFirst(next.test.how)}. Enter it under tests and ask again.`,
    state: next.test.state,
  });
}
function aboutGrid(x: Asked, r: Ranking, gridV: number, put: Put): void {
  const leak = r.ties.find((c) => c.fault.id === "coupling-leaky");
  const { plateWatts } = ohmsLaw(x, r);
  const asLeak = leak ? `: as a leak of the coupling capacitor that is ${leak.size.replace(/^a leak of /, "")}, on this meter` : "";
  const heat = plateWatts === undefined ? "" : `, ${printValue(plateWatts, "power", 0.03 * plateWatts)} at the plate`;
  put(
    "suspects-positive-grid",
    "danger",
    `The grid is at ${printValue(Number(gridV.toPrecision(3)), "voltage")}${asLeak}. The tube draws too much${heat}, and its transformer with it.`,
    {
      do: "Switch off now. Discharge, measure, then lift the driver end of the coupling capacitor and read the grid again: at zero the capacitor leaked; still positive it is the tube or the line behind it.",
      hazards: [...inside, "heat"],
    },
  );
}
/** The heat in the screen's resistor, where its bypass is among the causes: a hand near it tells one from the other. */
function aboutScreenHeat(x: Asked, r: Ranking, put: Put): void {
  const leaky = r.ties.find((c) => c.fault.id === "screen-bypass-leaky");
  const { screenFeedWatts } = ohmsLaw(x, r);
  if (!leaky || isSound(r) || screenFeedWatts === undefined) return;
  const heat = (w: number): string => printValue(w, "power", 0.03 * w);
  const drifted = r.ties.find((c) => c.fault.id === "screen-resistor-drifted");
  const open = r.ties.some((c) => c.fault.id === "screen-resistor-open");
  // near zero it may be a short, even where nothing explains the rest
  const nearZero = leaky.fault.neverDropped?.(voltsOf(x), stageOf(x)) ?? false;
  const other = drifted ? `; drifted it has ${heat(screenFeedWatts / drifted.sizeValue)}` : open ? "; open it has none" : "";
  put(
    "suspects-screen-heat",
    nearZero ? "act" : "note",
    `If the bypass leaks or is shorted, the screen resistor has ${heat(screenFeedWatts)} in it${other}. A hot one with little left to spare points to the leak, and burns out if the set stays on.`,
    {
      ...(nearZero
        ? {
            state: "open-dead",
            do: "Leave the set off. Unplugged, discharged and measured: ohmmeter from the screen pin to the chassis. A few ohms to a few kΩ: that is the short.",
          }
        : {}),
      hazards: [...inside, "heat"],
    },
  );
}

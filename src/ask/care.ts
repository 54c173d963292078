import { storedJ } from "../physics/discharge";
import type { Bench } from "../set/bench";
import { besides, type Caution, isOpen, openDead, openLive, type SetFigures, type State } from "../standards/cautions";
import { printValue } from "../units/print";
import type { Finding, Hazard, HeededFinding } from "./findings";
import { highestBPlus } from "./rating";

/**
 * This set's own figures for the cautions: the most volts that the filter can reach with nothing drawn, and the energy in it then.
 *
 * @param bench the set as it stands
 * @returns what is known of them, printed; nothing where the supply is not described
 * @source highestBPlus, the same that drawings and ratings go by; C U^2 / 2
 */
export function setFigures(bench: Pick<Bench, "quantity">): SetFigures {
  const { crestV, known: isDescribed } = highestBPlus(bench);
  if (!isDescribed) return {};
  const nodes = ["b1", "b2", "b3"].map((n) => bench.quantity(`supplies.nodes.${n}.volts`)?.value ?? 0);
  // never less than what stands at a node of it, whatever was typed of the winding
  const volts = Math.max(crestV, ...nodes);
  const farads = ["firstCapacitance", "secondCapacitance", "thirdCapacitance"].map((n) => bench.quantity(`supplies.${n}`)?.value);
  const known = farads.filter((f) => f !== undefined);
  return {
    volts: printValue(volts, "voltage", 5),
    ...(known.length > 0
      ? {
          energy: printValue(
            known.reduce((j, f) => j + storedJ(f, volts), 0),
            "energy",
            0.1,
          ),
        }
      : {}),
  };
}

/** One thing that hands are to do: what it wants of the set, and what can hurt there. */
interface Step {
  readonly state: State;
  readonly hazards: readonly Hazard[];
}

/**
 * Walks steps in the order in which they are read, and says before which of them what is to be heeded: in full where the state first turns open, in short
 * where it turns so again, and each hazard besides where an open step first meets it.
 *
 * @param figures the set's own
 * @returns a function that takes the next step and gives its cautions; none for desk and panel, none while the state stays
 * @source design of a good manual's cautions; common practice
 */
export function carefully(figures: SetFigures): (step: Step) => readonly Caution[] {
  let now: State = "desk";
  const said = new Set<string>();
  const also = besides(figures.signed);
  const first = (id: string): boolean => !said.has(id) && said.add(id) !== undefined;
  return ({ state, hazards }) => {
    const turned = state !== now;
    now = state;
    const lineAtPanel = state === "panel" && hazards.includes("line");
    if (!isOpen(state) && !lineAtPanel) return [];
    if (lineAtPanel) return also.filter((c) => c.id !== "heat" && hazards.some((h) => h === c.id) && first(c.id));
    const turning = turned ? [(state === "open-dead" ? openDead : openLive)(figures, !first(state))] : [];
    return [...turning, ...also.filter((c) => hazards.some((h) => h === c.id) && first(c.id))];
  };
}

/** First words of a step that is done with the set off, whatever its sheet is mostly about. */
const offFirst = /^(?:unplug|unplugged|switch off|set (?:off|unplugged)|off,|discharged|fit |replace |take it out|solder)/i;
/** What a finding wants of the set: what it says itself; else dead where its step begins so; else the sheet's own where it asks for a step, else the desk. */
export const stateOf = (f: Pick<Finding, "state" | "do" | "hazards">, works: State): State =>
  f.state ?? (f.do === undefined ? "desk" : isOpen(works) && offFirst.test(f.do) ? "open-dead" : works);

/**
 * Findings with their states, and with what is to be heeded before each step.
 *
 * @param findings as the sheet put them
 * @param works state that the sheet works in where a finding says none
 * @param figures of this set: B+, stored energy
 * @returns the findings in order, each with its state, its hazards and the cautions before it
 * @source house frame; cautions of standards/cautions.ts
 */
export function heeded(findings: readonly Finding[], works: State, figures: SetFigures): HeededFinding[] {
  const before = carefully(figures);
  return findings.map((f) => {
    const state = stateOf(f, works);
    const hazards: Finding["hazards"] = isOpen(state) || (state === "panel" && f.hazards.includes("line")) ? f.hazards : ["none"];
    // a finding that asks for nothing leaves the hands where they are
    return { ...f, state, hazards, before: f.do === undefined ? [] : before({ state, hazards }) };
  });
}

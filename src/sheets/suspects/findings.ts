import type { NextTest, Ranked, Ranking } from "../../set/rank-causes";
import { nearestPreferred, nextRatedV } from "../../standards/preferred";
import { printValue } from "../../units/print";
import type { Finding, Part } from "../contract";
import { nodeOptions, ohmsLaw, type SuspectInputs, voltsOf } from "./solve";

const inside: Finding["hazards"] = ["b-plus", "stored-charge"];
const percent = (p: number): string => (p < 0.01 ? "under 1 %" : `${Math.round(100 * p)} %`);
const named = (c: Ranked): string => `${c.fault.says}${c.size ? `, ${c.size}` : ""} (${percent(c.probability)})`;
/** With fewer than three pins read, what is to be read first; undefined otherwise. */
const fewReadings = (x: SuspectInputs): string | undefined => {
  const read = Object.keys(voltsOf(x));
  if (read.length >= 3 || x.tests.length > 0) return undefined;
  const missing = nodeOptions.filter((n) => !read.includes(n) && (n !== "screen" || x.pointScreen > 0));
  return `Only ${read.join(" and ")} ${read.length > 1 ? "were" : "was"} read: read ${missing.join(", ")} as well.`;
};
/** Bits under which a test is not worth the trouble. */
const littleBits = 0.05;
const upper = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1);
const worthIt = (next: readonly NextTest[]): NextTest | undefined => (next[0] && next[0].bits > littleBits ? next[0] : undefined);

export function suspectsHeadline(x: SuspectInputs, r: Ranking): string {
  const few = fewReadings(x);
  if (few)
    return `${few} Of the usual causes ${r.causes
      .slice(0, 3)
      .map((c) => c.fault.says.split(":")[0])
      .join(", ")} come to mind first; nothing is to be replaced on this.`;
  const [top] = r.causes;
  const next = worthIt(r.next);
  const then = next ? ` Measure next: ${next.test.says}.` : "";
  if (r.worstMiss > 5)
    return `No single fault explains these readings: the best, ${top.fault.says}, misses one of them by ${r.worstMiss.toFixed(0)} times its error. Read them once more; there may be two faults.`;
  if (top.fault.id === "none-visible") {
    const hidden = r.ties.filter((c) => c !== top).map((c) => c.fault.says);
    return `No fault is visible in these readings (${percent(top.probability)}).${hidden.length > 0 ? ` They could not show: ${hidden.join("; ")}.` : ""}${then}`;
  }
  const others = r.ties.filter((c) => c !== top);
  if (others.length === 0) return `Most likely: ${named(top)}.${then}`;
  return `A tie: ${[top, ...others].map(named).join("; or ")}. These readings can't tell them apart.${then}`;
}

/** What the one cause that is left takes to buy: nothing while there is a tie or a test to make. */
export function suspectParts(x: SuspectInputs, r: Ranking, tubeType: string): Part[] {
  const [top] = r.causes;
  if (fewReadings(x) || top.probability < 0.9 || r.worstMiss > 5 || worthIt(r.next)) return [];
  const resistor = (name: string, ohm: number, watts: number): Part => ({
    part: `${name} resistor`,
    was: printValue(ohm, "resistance"),
    value: printValue(nearestPreferred(ohm, 24), "resistance"),
    rating: `${[0.5, 1, 2, 3, 5].find((w) => w >= 2 * watts) ?? 10} W`,
    kind: "metal film or metal oxide",
    quantity: 1,
    why: top.fault.says,
  });
  const capacitor = (name: string, farad: string): Part => ({
    part: `capacitor, ${name}`,
    was: "",
    value: farad,
    rating: printValue(nextRatedV(1.5 * x.supply) ?? 630, "voltage"),
    kind: "film",
    quantity: 1,
    why: `${top.fault.says}; take the value of the service sheet where it differs`,
  });
  const current = x.pointPlateCurrent + x.pointScreenCurrent;
  const byFault: Readonly<Record<string, Part>> = {
    "screen-resistor-high": resistor("screen", x.screenFeed, x.pointScreenCurrent ** 2 * x.screenFeed),
    "screen-resistor-open": resistor("screen", x.screenFeed, x.pointScreenCurrent ** 2 * x.screenFeed),
    "cathode-resistor-high": resistor("cathode", x.cathodeResistor, current ** 2 * x.cathodeResistor),
    "cathode-open": resistor("cathode", x.cathodeResistor, current ** 2 * x.cathodeResistor),
    "plate-feed-high": resistor("plate feed", x.plateFeed, x.pointPlateCurrent ** 2 * x.plateFeed),
    "screen-bypass-leaky": capacitor("screen bypass", "47 nF"),
    "screen-bypass-shorted": capacitor("screen bypass", "47 nF"),
    "coupling-leaky": capacitor("coupling to the grid", "22 nF"),
    "weak-tube": { part: `tube, ${tubeType}`, was: "", value: tubeType, rating: "tested", kind: "tube", quantity: 1, why: top.fault.says },
    "dead-tube": { part: `tube, ${tubeType}`, was: "", value: tubeType, rating: "tested", kind: "tube", quantity: 1, why: top.fault.says },
  };
  const part = byFault[top.fault.id];
  return part ? [part] : [];
}

export function suspectsFindings(x: SuspectInputs, r: Ranking): Finding[] {
  const out: Finding[] = [];
  const [top] = r.causes;
  const next = worthIt(r.next);
  const healthy = top.fault.id === "none-visible";
  if (r.worstMiss > 5)
    out.push({
      id: "suspects-two-faults",
      severity: "check",
      says: `The best single fault misses a reading by ${r.worstMiss.toFixed(0)} times its error, so the order below means little.`,
      do: "Read the pins once more, with the range and the pin said; then look for two faults, the supply and the resistors with the power off first.",
      restsOn: [],
      hazards: inside,
    });
  else if (fewReadings(x))
    out.push({
      id: "suspects-few-readings",
      severity: "act",
      says: `${fewReadings(x)} From so little every order of causes is a guess.`,
      do: "Clip the meter on with the set off and discharged, stand clear, switch on; B+ at this stage first.",
      restsOn: [],
      hazards: inside,
    });
  else if (!healthy)
    out.push({
      id: `suspects-${top.fault.id}`,
      severity: "act",
      says: `${upper(r.ties.length > 1 ? r.ties.map(named).join("; or ") : named(top))}.`,
      do: next
        ? "Replace nothing on this alone: make the next measurement first."
        : "Plug out, discharged and measured: mend or replace it, then read the stage again.",
      restsOn: [],
      hazards: inside,
    });
  else
    out.push({
      id: "suspects-none-visible",
      severity: "note",
      says: `${upper(top.fault.says)}. ${
        r.ties.length > 1
          ? `As likely, for how common each is: ${r.ties
              .filter((c) => c !== top)
              .map((c) => c.fault.says)
              .join("; ")}. DC on these pins can't show them.`
          : ""
      }`,
      restsOn: [],
      hazards: inside,
    });
  if (next && r.worstMiss <= 5 && !fewReadings(x))
    out.push({
      id: `suspects-next-${next.test.id}`,
      severity: healthy ? "check" : "act",
      says: `What tells most about what is left: ${next.test.says}${r.next[1] && r.next[1].bits > littleBits ? `; after that ${r.next[1].test.says}` : ""}.`,
      do: `${upper(next.test.how)}. Type it under tests and ask again.`,
      restsOn: [],
      hazards: inside,
    });
  const grid = voltsOf(x).grid;
  const { leakOhm, plateWatts, screenFeedWatts } = ohmsLaw(x);
  if (grid !== undefined && grid > 0.1 && Number.isFinite(leakOhm))
    out.push({
      id: "suspects-positive-grid",
      severity: "danger",
      says: `The grid stands at ${printValue(grid, "voltage", 0.02)}: as a leak of the coupling capacitor that is ${printValue(leakOhm, "resistance", 0.1 * leakOhm)}. The tube draws too much${Number.isFinite(plateWatts) ? `, ${printValue(plateWatts, "power", 0.03 * plateWatts)} at the plate` : ""}, and its transformer with it.`,
      do: "Switch off now. Discharge, measure, then lift the driver end of the coupling capacitor and read the grid again: at zero the capacitor leaked; still positive it is the tube or the line behind it.",
      restsOn: [],
      hazards: [...inside, "heat"],
    });
  const leaky = r.causes.find((c) => c.fault.id === "screen-bypass-leaky");
  if (leaky && leaky.probability > 0.2 && Number.isFinite(screenFeedWatts))
    out.push({
      id: "suspects-screen-heat",
      severity: "note",
      says: `If the bypass leaks, the screen resistor has ${printValue(screenFeedWatts, "power", 0.03 * screenFeedWatts)} in it; drifted up it has ${printValue((screenFeedWatts * x.screenFeed) / (x.screenFeed * (r.causes.find((c) => c.fault.id === "screen-resistor-high")?.sizeValue ?? 1)), "power", 0.03 * screenFeedWatts)}. A hot one with little left to spare speaks for the leak.`,
      restsOn: [],
      hazards: [...inside, "heat"],
    });
  return out;
}

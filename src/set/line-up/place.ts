import { bulbOf, isAmplifying } from "../../standards/tube-bulbs";
import { bad, good, type Read } from "../../units/issue";
import type { SetDescription } from "../describe";
import { socketName, socketNumber } from "../sockets";
import type { Duty, SaidDuty, SaidTube } from "./duties";

export type Stages = SetDescription["stages"];
export type PlacedTube = SetDescription["tubes"][number];
/** What was not said but taken as usual: by path, what it was taken for and from what. */
export type Guesses = Record<string, { readonly is: string; readonly from: string }>;
export interface Placed {
  readonly stages: Stages;
  readonly tubes: readonly PlacedTube[];
  readonly guessed: Guesses;
}
/** Which kind of stage a duty is at; what is not here stands beside the signal's way. */
const kindOf: Readonly<Partial<Record<Duty, readonly string[]>>> = {
  rf: ["rf"],
  mixer: ["mixer"],
  converter: ["mixer"],
  oscillator: ["oscillator"],
  if: ["if-tube"],
  detector: ["detector"],
  avc: ["avc", "detector"],
  bfo: ["bfo"],
  audio: ["audio"],
  output: ["audio"],
  rectifier: ["supply"],
  regulator: ["supply"],
};
/** Duties that take a tube which amplifies, each for itself. */
const takesOne: readonly Duty[] = ["rf", "mixer", "converter", "oscillator", "if", "bfo", "audio", "output", "calibrator", "meter"];
/** Of a triode pentode, what its triode usually does. Common practice, no source. */
const triodeDoes: readonly Duty[] = ["oscillator", "bfo", "audio", "calibrator", "meter"];

/** A bulb, or one half of it, with what it does. */
interface Part {
  readonly socket: string;
  readonly type: string;
  readonly duties: readonly SaidDuty[];
  readonly line: number;
}
const halfLetters = ["a", "b", "c"];
const asTwo = (d: SaidDuty): readonly SaidDuty[] =>
  d.duty === "converter"
    ? [
        { ...d, duty: "mixer", says: "mixer" },
        { ...d, duty: "oscillator", says: "oscillator" },
      ]
    : [d];

/** The parts of a bulb that work apart: the halves of a double tube where two duties were said of it. */
function partsOf(t: SaidTube, socket: string, guessed: Guesses): readonly Part[] {
  const units = bulbOf(t.type)?.units.filter(isAmplifying);
  // of two units one mixes and the other is the oscillator
  const duties = units !== undefined && units.length > 1 ? t.duties.flatMap(asTwo) : t.duties;
  const apart = duties.filter((d) => takesOne.includes(d.duty));
  const whole: readonly Part[] = [{ socket, type: t.type, duties, line: t.line }];
  if (apart.length < 2 || (units !== undefined && units.length < 2) || /[abc]$/.test(socket)) return whole;
  const mixed = units?.includes("triode") === true && units.includes("pentode");
  const swap = mixed && !triodeDoes.includes(apart[0].duty) && triodeDoes.includes(apart[1].duty);
  const order = swap ? [apart[1], apart[0], ...apart.slice(2)] : apart;
  // what takes no tube of its own, such as a detector's diodes, stays with the first
  const rest = duties.filter((d) => !apart.includes(d));
  guessed[`tubes.${socket}`] = {
    is: order.map((d, i) => `${socket}${halfLetters[i]} ${d.says}`).join(", "),
    from: mixed ? "of the two, the triode usually does that" : "the order in which the two duties were said",
  };
  return order.slice(0, 3).map((d, i) => ({
    socket: `${socket}${halfLetters[i]}`,
    type: mixed && units ? `${t.type} ${units[i]}` : t.type,
    duties: i === 0 ? [d, ...rest] : [d],
    line: t.line,
  }));
}
/** Sockets as said; what has none gets the next that is free, in the order of the list. */
function withSockets(tubes: readonly SaidTube[]): readonly (readonly [string, SaidTube])[] {
  const taken = new Set(tubes.flatMap((t) => (t.socket === undefined ? [] : [Math.floor(socketNumber(t.socket) ?? 0)])));
  let next = 1;
  return tubes.map((t) => {
    if (t.socket !== undefined) return [t.socket, t] as const;
    while (taken.has(next)) next++;
    taken.add(next);
    return [socketName(next), t] as const;
  });
}
/** The stage that a duty is at: the one that was named by its order, else the next of its kind that has no tube. */
function stageFor(d: SaidDuty, stages: Stages, used: ReadonlySet<string>): string | undefined {
  const kinds = kindOf[d.duty];
  if (kinds === undefined) return "";
  const own = stages.filter((s) => kinds.includes(s.kind) && (s.kind !== "audio" || (s.id === "output") === (d.duty === "output")));
  const named = d.order === undefined || d.duty === "audio" ? undefined : own[d.order - 1];
  return (named ?? own.find((s) => !used.has(s.id)) ?? own.at(-1))?.id;
}
/** What a set has where a duty has a place. */
const lacking: Readonly<Partial<Record<Duty, string>>> = { rf: "RF stage", bfo: "BFO", if: "second IF can, so an IF tube before it" };

/**
 * Each tube at its stage, the halves of a double tube apart, one tube at each stage that amplifies; a second one gets a stage of its own behind it.
 *
 * @param all stages that the set may have
 * @param said tubes with their duties
 * @returns stages and tubes, and what was guessed; or the line whose tube has no place
 * @source house format
 */
export function placeTubes(all: Stages, said: readonly SaidTube[]): Read<Placed> {
  const guessed: Guesses = {};
  const parts = withSockets(said).flatMap(([socket, t]) => {
    if (t.guessed)
      guessed[`tubes.${socket}`] = {
        is: `${t.type}: ${t.duties.map((d) => d.says).join(", ")}`,
        from: "its type and its place in the list",
      };
    return partsOf(t, socket, guessed);
  });
  if (said.some((t) => t.socket === undefined))
    guessed.tubes = { is: `sockets ${parts.map((p) => p.socket).join(", ")}`, from: "the order in which the tubes were written" };
  const used = new Set<string>();
  const tubes: PlacedTube[] = [];
  for (const p of parts) {
    const stages = p.duties.map((d) => stageFor(d, all, used));
    const none = stages.indexOf(undefined);
    if (none >= 0 && stages.every((s) => s === undefined || s === ""))
      return bad(
        `line ${p.line}`,
        "no-such-stage",
        p.duties[none].says,
        `a set with a place for it: one with ${lacking[p.duties[none].duty] ?? "that stage"}`,
      );
    const stage = stages.find((s) => s !== undefined && s !== "") ?? "";
    used.add(stage);
    tubes.push({ socket: p.socket, type: p.type, function: p.duties.map((d) => d.says).join(", "), stage });
  }
  return good({ ...oneTubeEach(all, tubes), guessed });
}
/** One tube at each stage that amplifies: a second one gets a stage of its own behind the first. */
function oneTubeEach(all: Stages, tubes: readonly PlacedTube[]): Pick<Placed, "stages" | "tubes"> {
  const stages: Stages = [];
  const placed = tubes.map((t) => ({ ...t }));
  for (const s of all) {
    const own = placed.filter((t) => t.stage === s.id);
    if (s.id === "audio" && own.length === 0) continue;
    stages.push(s);
    if (!["rf", "if-tube", "audio"].includes(s.kind)) continue;
    own.slice(1).forEach((t, i) => {
      const id = `${s.id}-${i + 2}`;
      t.stage = id;
      stages.push({ ...s, id, label: `${s.label}, ${t.socket}` });
    });
  }
  return { stages, tubes: placed };
}
/**
 * The stage that a tube with some duties is at in a set as it stands.
 *
 * @param set the set
 * @param socket of the tube, whose own stage counts as free
 * @param duties of it
 * @returns id of the stage, empty where it stands beside the signal's way; undefined where the set has no such stage
 * @source house format
 */
export function stageOf(set: Pick<SetDescription, "stages" | "tubes">, socket: string, duties: readonly SaidDuty[]): string | undefined {
  const used = new Set(set.tubes.filter((t) => t.socket !== socket).map((t) => t.stage));
  const found = duties.map((d) => stageFor(d, set.stages, used));
  return found.find((s) => s !== undefined && s !== "") ?? (found.includes("") ? "" : undefined);
}

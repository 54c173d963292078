import { tubePointOf } from "../standards/receiving-tubes";
import { bad, good, type Read } from "../units/issue";
import type { SetDescription } from "./describe";
import { socketName, socketNumber } from "./sockets";

export type Stages = SetDescription["stages"];
type Tube = readonly [socket: string, type: string, does: string, stage: string];
export const orders = ["First", "Second", "Third", "Fourth"];
export const noType = "type not stated";
export const linesOf = (text: string): readonly (readonly [number, string])[] =>
  text
    .split(/\n|;/)
    .map((l, i) => [i + 1, l.trim()] as const)
    .filter(([, l]) => l !== "");
const wordsOf = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter((w) => w.length > 1);
/** Other words for what an audio tube does. */
const roles: Readonly<Record<string, string>> = {
  power: "output",
  phase: "audio",
  inverter: "audio",
  splitter: "audio",
  driver: "audio",
  preamplifier: "audio",
};
/** The stage that a tube serves, by what is said that it does: the first word that names one, and "first" or "second" where several share it. */
function stageFor(does: string, type: string, own: Stages): string {
  const words = wordsOf(does).map((w) => roles[w] ?? w);
  const naming = words.filter((w) => !orders.some((o) => o.toLowerCase() === w));
  for (const w of naming) {
    const hits = own.filter((s) => s.id === w || wordsOf(s.label).includes(w));
    const closest = hits.find((s) => wordsOf(s.label).every((l) => words.includes(l) || l === "tube" || l === "stage")) ?? hits[0];
    if (!closest) continue;
    // a tube that drives the loudspeaker is the output, whether "audio output" is said or only "audio" of an output tube
    const output = own.find((s) => s.id === "output");
    const drives = words.includes("output") || (!words.includes("first") && (tubePointOf(type)?.plateA ?? 0) > 0.02);
    return closest.id === "audio" && output && drives ? output.id : closest.id;
  }
  return "";
}
/** What tubes do that have no stage of their own on the route. */
const beside = /rectifier|regulator|tuning (eye|indicator)|eye|marker|crystal|calibrator|limiter|s meter|oscillator|ballast/i;

/** Whether two sockets share a bulb otherwise than as its two halves. */
const clash = (a: string, b: string): boolean => {
  const [x, y] = [socketNumber(a), socketNumber(b)];
  return (
    a === b ||
    (x !== undefined && y !== undefined && (x === y || (Math.floor(x) === Math.floor(y) && (x === Math.floor(x) || y === Math.floor(y)))))
  );
};

/**
 * The tubes of an outline, each at its stage, and the stages as they then are: one tube a stage, the halves of a double tube apart.
 *
 * @param text lines such as `V2, 6BE6, mixer`, `V5a, 12AX7, first audio`, or `V5, 12AX7, first audio / BFO` for both halves at once
 * @param all stages that the set may have
 * @returns tubes and stages, or the located issue
 * @source house format
 */
export function readTubes(text: string, all: Stages): Read<{ readonly stages: Stages; readonly tubes: Tube[] }> {
  const own = all.filter((s) => !["antenna", "can", "filter", "speaker"].includes(s.kind));
  const lines = linesOf(text);
  if (lines.length === 0) {
    const stages = all.filter((s) => s.id !== "audio");
    return good({ stages, tubes: own.filter((s) => s.id !== "audio").map((s, i) => [`V${i + 1}`, noType, s.label, s.id]) });
  }
  const out: Tube[] = [];
  for (const [line, said] of lines) {
    const path = `tubes line ${line}`;
    const parts = said.split(/\s*,\s*/);
    if (parts.length < 3) return bad(path, "not-a-tube", said, "socket, type, what it does, such as V2, 6BE6, mixer");
    const [socket, type, ...rest] = parts;
    const duties = rest.join(", ").split(/\s+[/+]\s+/);
    if (duties.length > 2) return bad(path, "not-a-tube", rest.join(", "), "one duty, or the two of a double tube with / between");
    for (const [i, does] of duties.entries()) {
      const number = socketNumber(socket);
      const name = duties.length === 1 || number === undefined ? socket : socketName(Math.floor(number) + (i + 1) / 10);
      if (out.some(([s]) => clash(s, name)))
        return bad(path, "same-socket", name, "each socket once, or V5a and V5b for the halves of a double tube");
      const at = stageFor(does, type, own);
      if (at === "" && !beside.test(does))
        return bad(
          path,
          "no-such-stage",
          does,
          `what the tube does: ${own.map((s) => s.label.toLowerCase()).join(", ")}, rectifier, regulator, oscillator`,
        );
      out.push([name, type, does, at]);
    }
  }
  return good(oneTubeEach(all, out));
}

/** One tube at each stage that amplifies: a second one gets a stage of its own behind the first. */
function oneTubeEach(all: Stages, tubes: readonly Tube[]): { readonly stages: Stages; readonly tubes: Tube[] } {
  const stages: Stages = [];
  const placed = tubes.map((t): [string, string, string, string] => [...t]);
  for (const s of all) {
    const own = placed.filter((t) => t[3] === s.id);
    if (s.id === "audio" && own.length === 0) continue;
    stages.push(s);
    if (!["rf", "if-tube", "audio"].includes(s.kind)) continue;
    own.slice(1).forEach((t, i) => {
      const id = `${s.id}-${i + 2}`;
      t[3] = id;
      stages.push({ ...s, id, label: `${s.label}, ${t[0]}` });
    });
  }
  return { stages, tubes: placed };
}

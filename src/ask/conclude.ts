import type { Bench } from "../set/bench";
import { readingState } from "../standards/cautions";
import type { Issue } from "../units/issue";
import { upperFirst } from "../units/sentence";
import type { MeasureNext } from "./answered";
import { carefully, heeded, setFigures, stateOf } from "./care";
import { behindTransformer, isSafeToJoin, liveChassisFinding, stopWords } from "./chassis";
import type { AnyGround, AnySheet } from "./contract";
import { type Finding, type Hazard, type HeededFinding, type Part, severities } from "./findings";
import { ratedPart } from "./rating";
import type { Resolved } from "./resolved";
import type { Figure } from "./results";
import { holding, isStrip, tellsAbsent } from "./say";

/** What an answer is concluded from. */
export interface Concluding {
  readonly sheet: AnySheet;
  readonly bench: Bench;
  readonly inputs: Resolved;
  readonly ground: AnyGround;
  readonly figures: Readonly<Record<string, Figure>>;
  /** inputs that are read at the set and were not: with any, the answer is an example */
  readonly unread: readonly string[];
}

/**
 * Headline and findings of an answer: an example orders nothing; at a chassis that is not proved safe, stop is said first; each step with its state
 * and with what is to be heeded before it.
 *
 * @param from the sheet with its inputs and results
 * @returns sentence and findings, gravest first
 * @source house frame
 */
export function conclude(from: Concluding): { readonly headline: string; readonly findings: readonly HeededFinding[] } {
  const { sheet, bench, inputs, figures } = from;
  const listed = findingsFirst(from);
  const chassis = String(inputs.plain.chassis ?? bench.choice("chassis") ?? "unstated");
  const atTheSet = sheet.joins || listed.some((f) => stateOf(f, sheet.works) !== "desk");
  const stop = !isSafeToJoin(chassis) && atTheSet;
  const behind = chassis === "live-proved-dead" && atTheSet;
  const all = stop ? withLiveChassis(chassis, listed) : behind ? [behindTransformer, ...listed] : [...listed];
  all.sort((a, b) => severities.indexOf(a.severity) - severities.indexOf(b.severity));
  const unread = from.unread.map((n) => sheet.inputs[n].meaning);
  const text =
    unread.length > 0
      ? `Not enough recorded to judge this set yet. Missing: ${unread.join(" and ")}. What is shown is an EXAMPLE.`
      : holding(sheet.headline(from.ground), figures);
  // what says stop by itself is not for later
  const stopped = text.startsWith("STOP") ? `${text} ${stopWords(chassis)}` : `${stopWords(chassis)} For later: ${text}`;
  return { headline: stop ? stopped : text, findings: heeded(all, sheet.works, setFigures(bench)) };
}

/** What was not read, then the sheet's own findings; an example orders nothing and is sure of nothing. */
function findingsFirst({ sheet, inputs, ground, figures, unread }: Concluding): readonly Finding[] {
  const own = sheet.findings(ground).map((f) => findingThatHolds(f, figures));
  return [
    ...unread.map((n) => notRead(sheet, n)),
    ...inputs.tables.flatMap((t) => t.unread.map((i) => cellNotRead(i))),
    ...own.filter((f) => unread.length === 0 || sheet.beforehand?.some((b) => f.id.startsWith(b))),
  ];
}

/** Every step inside such a set meets the line, and the chassis itself is said first. */
const withLiveChassis = (chassis: string, findings: readonly Finding[]): Finding[] => [
  ...(findings.some((f) => f.id === "chassis-may-be-live") ? [] : [liveChassisFinding(chassis)]),
  ...findings.map((f): Finding => {
    const [first, ...rest] = new Set<Hazard>([...f.hazards.filter((h) => h !== "none"), "line", "live-chassis"]);
    return { ...f, hazards: [first, ...rest] };
  }),
];

/** A finding whose every number is one; where nothing of it is left but what is missing it orders nothing. */
function findingThatHolds(f: Finding, figures: Readonly<Record<string, Figure>>): Finding {
  if (!tellsAbsent(f.says) && !tellsAbsent(f.do ?? "")) return f;
  const { do: todo, ...rest } = f;
  const says = holding(f.says, figures);
  const act = todo === undefined ? "" : holding(todo, figures, false);
  const severity = f.severity === "act" && holding(f.says, figures, false) === "" ? "check" : f.severity;
  return { ...rest, severity, says, ...(act === "" ? {} : { do: act }) };
}

/**
 * What following an answer takes to buy, rated for this set. Nothing is bought by a number that is none.
 *
 * @param from the sheet with its inputs and results
 * @returns the parts
 * @source house frame
 */
export const partsOf = ({ sheet, ground }: Concluding): Part[] =>
  (sheet.parts?.(ground) ?? [])
    .filter((p) => !Object.values(p).some((v) => typeof v === "string" && tellsAbsent(v)))
    .map((p) => ratedPart(p, ground.rating));

/** What stands in place of a sheet's own findings while something that is read at the set was not read. */
function notRead(sheet: AnySheet, name: string): Finding {
  const { meaning, howMeasured, state } = sheet.inputs[name];
  return {
    id: `not-read-${name}`,
    severity: "act",
    says: `Not recorded yet: ${meaning}.`,
    do: `${upperFirst(howMeasured)}. Record it, or try it here as a what-if.`,
    restsOn: [],
    hazards: sheet.readAt ?? ["none"],
    state: readingState(howMeasured, state),
  };
}

/** A cell of a record card that holds nothing that can be read: the answer goes round it, and says so. */
const cellNotRead = ({ path, read, expected }: Issue): Finding => ({
  id: `cell-not-read-${path.replace(/[^a-z0-9]+/gi, "-")}`,
  severity: "check",
  says: `${path}: “${read}” can't be read, so it is left out here. Expected ${expected}.`,
  restsOn: [],
  hazards: ["none"],
});

/**
 * For each key result the input that its interval depends on most: what to measure next, three at most.
 *
 * @param from the sheet with its inputs and results
 * @returns inputs, their share, how they are measured, and what is to be heeded before
 * @source house frame
 */
export function measureNext({ sheet, bench, inputs, figures }: Concluding): MeasureNext[] {
  const out: MeasureNext[] = [];
  const before = carefully(setFigures(bench));
  for (const result of sheet.key) {
    const top = figures[result]?.shares[0];
    if (!top || out.some((o) => o.inputs[0] === top.inputs[0])) continue;
    const q = inputs.quantities.find((i) => i.path === top.inputs[0]);
    const how = isStrip(top.inputs) ? "a better sweep of the strip: more points on the skirts, less noise" : (q?.howMeasured ?? "");
    const state = readingState(how, isStrip(top.inputs) ? undefined : sheet.inputs[top.inputs[0]]?.state);
    out.push({ inputs: top.inputs, share: top.share, result, how, state, before: before({ state, hazards: [] }) });
  }
  return out.slice(0, 3);
}

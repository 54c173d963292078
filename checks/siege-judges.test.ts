/** The siege's own judges see what they are there to see: an entry that is lost, doubled, torn off its pair, or of nobody. */
import { expect, it } from "vitest";
import { type Hands, heldToHands } from "../bench/siege/hands";
import { troubles } from "../bench/siege/kit";
import { entriesFrom } from "../bench/siege/shop/entries";
import { heldToWritten } from "../bench/siege/written";
import type { Entry } from "../src/job/document";

const head = { at: "2026-02-01T00:00:00.000Z", who: "t" };
const note = (id: string, word: string): Entry => ({ ...head, id, kind: "done", step: "01", note: word });
const work: Entry = {
  ...head,
  id: "w",
  kind: "work",
  work: "resistor-replaced",
  subject: "stages.if1",
  note: "s1-2",
  makes: [],
  rests: [],
};
const side = { kind: "resistor", words: "330 ohm", dress: "" };
const part: Entry = {
  ...head,
  id: "p",
  kind: "part",
  part: "resistor",
  place: "stages.if1",
  label: "R14",
  out: side,
  came: side,
  note: "",
  partOf: "w",
};
const corrected: Entry = { ...head, id: "d", kind: "described", list: "tubes", member: "V1", as: null, why: "s1-3" };
const hands = (acknowledged: readonly (readonly [string, readonly Entry["kind"][]])[]): Hands => ({
  acknowledged: new Map(acknowledged),
  refused: () => 0,
  killLine: () => undefined,
  stop: async () => undefined,
});
const told = hands([
  ["s0-1", ["done"]],
  ["s1-2", ["work", "part"]],
]);
it.each([
  ["nothing, where all is there once", [note("a", "s0-1"), work, part], /^$/],
  ["an act that is lost", [work, part], /^lost .*s0-1/],
  ["an act that is there twice", [note("a", "s0-1"), note("b", "s0-1"), work, part], /^doubled .*s0-1/],
  ["work without its part", [note("a", "s0-1"), work], /^torn .*s1-2/],
  ["an entry that nobody sent", [note("a", "s0-1"), work, part, note("x", "whoever")], /^an entry of nobody's/],
] as const)("of hands: %s", (_, found, trouble) => {
  const t = troubles();
  heldToHands(found, told, t);
  expect(t.lines().join()).toMatch(trouble);
});
it.each([
  ["nothing, where no work rested on it", [corrected], /^$/],
  ["a correction without the work that it is of", [{ ...corrected, partOf: "gone" }], /^torn .*s1-3/],
  ["a correction that is there twice", [corrected, { ...corrected, id: "d2" }], /s1-3/],
] as const)("of a hand that corrects: %s", (_, found, trouble) => {
  const t = troubles();
  heldToHands(found, hands([["s1-3", ["work", "described"]]]), t);
  expect(t.lines().join()).toMatch(trouble);
});
const next = entriesFrom(0);
const pair = ["drawn-0-a", "drawn-0-b"].map((id) => next(id, "drawn", head.at));
it.each([
  ["nothing, where all is there once", pair, /^$/],
  ["a pair that is torn", [pair[0]], /lost .*drawn-0-b.*torn/],
  ["an entry that is there twice", [...pair, pair[1]], /^doubled/],
  ["an entry that is not as it was written", [pair[0], { ...pair[1], at: "2026-02-02T00:00:00.000Z" }], /^not as written .*drawn-0-b/],
] as const)("of a writer of every kind: %s", (_, found, trouble) => {
  const t = troubles();
  heldToWritten(found, { acknowledged: pair, kill: () => undefined, stop: async () => undefined }, t);
  expect(t.lines().join()).toMatch(trouble);
});

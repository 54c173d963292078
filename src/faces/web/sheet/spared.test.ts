import { expect, it } from "vitest";
import { answer } from "../../../ask/answer";
import { benchOfSet, subjectsOf } from "../../../job/view";
import { patterns } from "../../../set/patterns/kinds";
import { sheets } from "../../../sheets/index";
import { spared, whole } from "./spared";

const set = { ...patterns[1], chassis: { state: "isolated" as const, isolation: "none" as const, note: "" } };
/** As a worker sends it. */
const sentOn = (now: unknown, was: unknown): unknown => whole(structuredClone(spared(now, was)), was);

it.each(sheets.map((s) => [s.id, s] as const))("%s: an answer that is sent after another is whole again, to the last number", (_, s) => {
  const at = subjectsOf(set, s.subject, s.fitting, s.stageKinds)[0] ?? "";
  const asked = { draws: 20, quick: true };
  const before = answer(s, benchOfSet(set, at), asked);
  const first = before.ok ? before.value.quantities.find((q) => q.quantity.value > 0) : undefined;
  const overrides = first ? { [first.path]: String(first.quantity.value * 1.05) } : {};
  const after = answer(s, benchOfSet(set, at), { ...asked, overrides });
  for (const now of [before, after]) expect(sentOn(now, before)).toEqual(structuredClone(now));
  expect(sentOn(before, before)).toBe(before);
});
it("sends no more than what has changed, and gives what hasn't as the same object", () => {
  const was = { curves: { a: { x: Float64Array.of(1, 2), y: Float64Array.of(3, Number.NaN) }, b: { y: [1] } }, says: "one", gone: 1 };
  const now = { curves: { a: { x: Float64Array.of(1, 2), y: Float64Array.of(3, 4) }, b: { y: [1] } }, says: "one", come: undefined };
  const sent = spared(now, was);
  expect(sent).toEqual({
    parts: {
      curves: { parts: { a: { parts: { x: { same: true }, y: { value: Float64Array.of(3, 4) } } }, b: { same: true } } },
      says: { same: true },
      come: { same: true },
    },
  });
  const got = whole(sent, was) as typeof now;
  expect(got).toEqual(now);
  expect(Object.keys(got)).toEqual(Object.keys(now));
  expect(got.curves.a.x).toBe(was.curves.a.x);
  expect(got.curves.b).toBe(was.curves.b);
  // of a list as long as it was, what stands elsewhere in it is the same object
  const rows = [{ says: "one" }, { says: "two" }, { says: "three" }];
  const turned = [{ says: "one" }, { says: "TWO" }, { says: "three" }];
  expect(spared(turned, rows)).toEqual({ places: [[1, { parts: { says: { value: "TWO" } } }]] });
  const back = sentOn(turned, rows) as typeof rows;
  expect(back).toEqual(turned);
  expect([back[0], rows[1].says]).toEqual([rows[0], "two"]);
  expect(back[0]).toBe(rows[0]);
  expect(spared([1, 2], [1])).toEqual({ value: [1, 2] });
  // a number that isn't one is the same as itself; a list is not an array of numbers
  expect(spared({ y: Float64Array.of(Number.NaN) }, { y: Float64Array.of(Number.NaN) })).toEqual({ same: true });
  expect(spared({ y: [1] }, { y: Float64Array.of(1) })).toEqual({ parts: { y: { value: [1] } } });
});

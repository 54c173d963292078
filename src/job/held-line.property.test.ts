/** Which line a reading of the voltage chart was taken at, where a bench was away and what it wrote came in late: as if each had come in when it was done. */
import fc from "fast-check";
import { expect, it } from "vitest";
import type { Entry } from "./document";
import { asDone } from "./held-back";
import { linesThen } from "./line-then";

const begun = Date.parse("2026-03-01T08:00:00.000Z");
const minute = (n: number): string => new Date(begun + n * 60_000).toISOString();
type Act = {
  readonly does: "line" | "value" | "read" | "both" | "work";
  readonly volts: number;
  readonly after: number;
  readonly late: number;
};
const act: fc.Arbitrary<Act> = fc.record({
  does: fc.constantFrom("line", "value", "read", "read", "both", "work"),
  volts: fc.integer({ min: 90, max: 140 }),
  // minutes after the one before it: of the same session, or of another day
  after: fc.constantFrom(1, 7, 55, 900),
  // how many others come in ahead of it
  late: fc.constantFrom(0, 0, 0, 1, 2, 5, 30),
});
const form = (fields: Readonly<Record<string, string>>) => ({ kind: "form" as const, form: "voltage-chart", fields });
function bodyOf({ does, volts }: Act, row: number) {
  const [line, read] = [{ "Line volts": String(volts) }, { [`row ${row}: Measured V`]: "100" }];
  if (does === "line") return form(line);
  if (does === "read") return form(read);
  if (does === "both") return form({ ...line, ...read });
  if (does === "work")
    return { kind: "work" as const, work: "capacitor-replaced", subject: "stages.audio", note: "", makes: [], rests: [] };
  const value = { value: volts, spread: { shape: "exact" as const }, origin: "measured" as const, source: "invented" };
  return { kind: "values" as const, values: { "line.today": value }, why: "" };
}
/** What was done, in its order; each row of the chart read once. */
function done(acts: readonly Act[]): readonly (readonly [Entry, number])[] {
  let at = 0;
  return acts.map((a, i) => {
    at += a.after;
    return [{ id: `e${i}`, at: minute(at), who: a.late > 0 ? "ben" : "ann", ...bodyOf(a, i) } as Entry, a.late];
  });
}
/** The same as it comes in: what was held behind others that were done after it, with both times. */
function comeIn(entries: readonly (readonly [Entry, number])[]): readonly Entry[] {
  const places = entries.map(([e, late], i) => ({
    e: late > 0 ? { ...e, received: minute(1e6 + i) } : e,
    place: i + late + (late > 0 ? 0.5 : 0),
  }));
  return places.sort((a, b) => a.place - b.place).map((p) => p.e);
}

it("is the line that had been said by then, in whatever order it came in", () => {
  fc.assert(
    fc.property(fc.array(act, { minLength: 2, maxLength: 25 }), (acts) => {
      const all = done(acts);
      const inTime = linesThen({ inForce: all.map(([e]) => e) });
      expect(new Map([...linesThen({ inForce: comeIn(all) })].sort())).toEqual(new Map([...inTime].sort()));
    }),
    { numRuns: 500, seed: 20260101 },
  );
});
it("is not changed for a later reading by a line that was said before it, and sent after it", () => {
  const said = (id: string, at: number, volts: string, more = {}): Entry => ({
    id,
    at: minute(at),
    who: "t",
    ...form({ "Line volts": volts }),
    ...more,
  });
  const read = (id: string, at: number, row: number): Entry => ({
    id,
    at: minute(at),
    who: "t",
    ...form({ [`row ${row}: Measured V`]: "100" }),
  });
  const there = [{ ...read("a", 60, 5), ...form({ "Line volts": "117", "row 5: Measured V": "100" }) } as Entry, read("b", 70, 3)];
  const late = said("held", 0, "150", { received: minute(120) });
  expect(linesThen({ inForce: there }).get("row 3")).toBe("117");
  const after = linesThen({ inForce: [...there, late, read("c", 130, 4)] });
  expect([after.get("row 3"), after.get("row 4")]).toEqual(["117", "117"]);
  // a reading that was held has the line of its own time, also where it stands on the card in place of a later one
  const heldRead = { ...read("r", 5, 3), received: minute(121) };
  expect(linesThen({ inForce: [...there, late, heldRead] }).get("row 3")).toBe("150");
});
it("leaves entries that came in as they were done in their order, whatever their clocks said", () => {
  const entries = [5, 3, 9, 1].map((n) => ({ at: minute(n) }));
  expect(asDone(entries)).toBe(entries);
  const held = { at: minute(4), received: minute(20) };
  expect(asDone([{ at: minute(2) }, { at: minute(6) }, held])).toEqual([{ at: minute(2) }, held, { at: minute(6) }]);
});

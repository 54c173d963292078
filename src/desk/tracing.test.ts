/** What a fault leads to: told apart while its cause is sought, then read again where that is written. */
import { expect, it } from "vitest";
import { type FaultState, faultsOf } from "../job/faults/faults";
import { placesOf } from "../job/places";
import { viewOf } from "../job/view";
import { patterns } from "../set/patterns/kinds";
import { tracedFaults } from "./tracing";

const chart = {
  "Chart's meter and line": "20 kΩ/V, 117 V",
  "Line volts": "117",
  Meter: "20 kΩ/V",
  "row 1: Tube": patterns[1].tubes.find((t) => t.stage === "if1")?.socket ?? "",
  "row 1: Electrode": "screen",
  "row 1: Chart V": "100",
  "row 1: Part Ω if known": "30k",
  "row 1: Measured V": "31",
};
const head = (id: string) => ({ id, at: "2026-05-01T00:00:00Z", who: "t" });
const card = { ...head("c"), kind: "form" as const, form: "voltage-chart", fields: chart };
const viewWith = (entries: Parameters<typeof viewOf>[0]["entries"]) =>
  viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "2026-05-01T00:00:00Z", set: patterns[1], entries });

it("is explained until its cause is found, and not after", () => {
  const [{ id, place }] = faultsOf(viewWith([card]));
  const act = (does: "notice" | "trace" | "cause" | "mend" | "prove" | "open-again", n: number) => ({
    ...head(`a${n}`),
    kind: "fault" as const,
    fault: id,
    does,
    place,
    words: "",
    ...(does === "cause" ? { cause: "screen resistor up" } : {}),
    rests: [],
  });
  const acts = (["notice", "trace", "cause", "mend", "open-again"] as const).map(act);
  const told = acts.map((_, i): readonly [FaultState, boolean] => {
    const [f] = tracedFaults(viewWith([card, ...acts.slice(0, i + 1)]));
    return [f.state, f.explained !== undefined];
  });
  expect(told).toEqual([
    ["noticed", true],
    ["being traced", true],
    ["cause found", false],
    ["mended", false],
    ["open again", true],
  ]);
});
it("is read again on a card wherever a card is named, and no command is", () => {
  for (const set of patterns)
    for (const place of placesOf(set)) {
      const notice = { ...head("n"), kind: "fault" as const, fault: "f1", does: "notice" as const, place, words: "w", rests: [] };
      const view = viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "", set, entries: [notice] });
      const [f] = tracedFaults(view);
      expect(f.readOn !== undefined, `${place}: ${f.toRead}`).toBe(/chart|card/.test(f.toRead));
      expect(f.toRead).not.toContain("fettle ");
    }
});

import { describe, expect, it } from "vitest";
import { keptPath, resolveInputs } from "../ask/resolve";
import { formatVersion } from "../job/format";
import { benchOf, subjectsIn, viewOf } from "../job/view";
import { putValue } from "../set/paths";
import { patterns } from "../set/patterns/kinds";
import { sheets } from "../sheets/index";
import { readingsThatProve } from "../sheets/inputs/accessory";

/** Inputs that nothing but a reading will do for, of every question, with a place of this invented set that each is about. */
const set = {
  ...structuredClone(patterns[1]),
  fittings: patterns[1].fittings.map((f) => ({ ...structuredClone(f), state: "set" as const })),
};
const viewWith = (of: typeof set) =>
  viewOf({ format: "fettle-job", version: formatVersion, id: "j", name: "j", created: "2026-01-01T00:00:00Z", set: of, entries: [] });
const wanted = sheets.flatMap((sheet) =>
  Object.entries(sheet.inputs).flatMap(([name, input]) => {
    const at = subjectsIn(viewWith(set), sheet)[0] ?? "";
    return input.kind === "quantity" && input.reading ? [[sheet.id, name, keptPath(sheet, at, name) ?? "", at] as const] : [];
  }),
);
const absentIn = (sheetId: string, name: string, path: string, at: string, origin: "assumed" | "measured"): boolean => {
  const own = structuredClone(set);
  putValue(own, path, { value: 1, spread: { shape: "exact" }, origin, source: "invented" });
  const r = resolveInputs(sheets.find((s) => s.id === sheetId)!, benchOf(viewWith(own), at), {});
  return !r.ok || r.value.absent.some((a) => a.path === name);
};

describe("what is read at the set or not at all", () => {
  it("is every reading that proves an accessory's states, and others", () => {
    const proof = wanted.flatMap(([sheet, name]) => (sheet === "accessory-proof" ? [name] : []));
    const all = ["q-multiplier", "marker-generator", "converter"].flatMap((kind) => readingsThatProve(kind, true));
    expect([...new Set(all)].filter((name) => !proof.includes(name))).toEqual([]);
    expect(wanted.length).toBeGreaterThan(proof.length);
  });
  it.each(wanted)("%s asks for %s still, once a guess of it was kept, and no more once it was read", (sheet, name, path, at) => {
    expect(path).not.toBe("");
    expect(absentIn(sheet, name, path, at, "assumed")).toBe(true);
    expect(absentIn(sheet, name, path, at, "measured")).toBe(false);
  });
});

import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { demoSet } from "../../desk/demo";
import type { Entry } from "../../job/document";
import { formatName, formatVersion } from "../../job/format";
import { benchOf, viewOf } from "../../job/view";
import { sheetById } from "../../sheets/index";
import { orThrow } from "../../units/issue";
import { sweepOver } from "./sweeps";

const at = "2026-02-01T00:00:00.000Z";
const swept = (id: string, shiftHz: number, state: "as-found" | "as-left" = "as-found"): Entry => ({
  id,
  at,
  who: "t",
  kind: "reading",
  reading: {
    id,
    as: "if-sweep",
    state,
    step: "33b",
    stage: "",
    instrument: "",
    thermal: "warm",
    file: { name: `${id}.csv`, hash: "" },
    columns: { frequencyHz: [455e3, 465e3, 475e3].map((f) => f + shiftHz), levelDb: [-61, -20, -58] },
    figures: [],
    warnings: [],
  },
});
const viewWith = (...entries: Entry[]) =>
  viewOf({ format: formatName, version: formatVersion, id: "j", name: "j", created: at, set: demoSet(), entries });

describe("a sweep over the curve of the strip", () => {
  const sheet = sheetById("if-response");
  if (!sheet) throw new Error("the question on the IF strip");
  const [spec] = sheet.figures;
  const told = (view: ReturnType<typeof viewWith>) => orThrow(answer(sheet, benchOf(view, ""), { draws: 20, points: 21 }));
  it("lies there as it was read: the last one, each point against its own peak, in the unit of the axis", () => {
    const view = viewWith(swept("r1", 0), swept("r2", 1000));
    expect(sweepOver(view, spec, told(view))).toEqual([{ x: [456, 466, 476], y: [-41, 0, -38] }]);
  });
  it("lies under a plate with a cable only as it was found, before the work; over a multiplier as it was read last", () => {
    const of = (id: string) => sheetById(id)!.figures[0];
    expect([of("cable-load").overSweep, of("q-multiplier").overSweep]).toEqual(["as found", "last"]);
    const view = viewWith(swept("r1", 0), swept("r2", 1000, "as-left"));
    expect(sweepOver(view, { ...spec, overSweep: "as found" }, told(view))?.[0].x).toEqual([455, 465, 475]);
    expect(sweepOver(view, spec, told(view))?.[0].x).toEqual([456, 466, 476]);
  });
  it("is none where nothing was read, or where the picture asks for none", () => {
    const [none, one] = [viewWith(), viewWith(swept("r1", 0))];
    expect(sweepOver(none, spec, told(none))).toBe(undefined);
    const { overSweep: _, ...other } = spec;
    expect(sweepOver(one, other, told(one))).toBe(undefined);
  });
});

import { expect, it } from "vitest";
import type { Entry } from "../../job/document";
import { benchOf, viewOf } from "../../job/view";
import { patternById } from "../../set/patterns/kinds";
import { answer } from "../../sheets/answer";
import { converter } from "../../sheets/converter/sheet";
import { keptPath } from "../../sheets/resolve";
import { orThrow } from "../../units/issue";
import { assignment } from "./assignment";

const set = patternById("nine-tube-bandspread")!;
const view = (entries: readonly Entry[] = []) =>
  viewOf({ format: "fettle-job", version: 2, id: "j", name: "j", created: "2026-01-01T00:00:00Z", set, entries: [...entries] });
let n = 0;
const stamp = { newId: () => `e${n++}`, at: "2026-01-01T00:00:00Z", who: "t" };
const path = keptPath(converter, "fittings.converter", "twoPath");
const keep = (text: string) => assignment(view(), path, text, "measured", "typed in", stamp);

it("keeps typed rows at the subject of their sheet, and the sheet reads them back as measured", () => {
  const v = view([orThrow(keep("800 Hz, low"))]);
  const a = orThrow(answer(converter, benchOf(v, "fittings.converter"), { draws: 5 }));
  const rows = a.rows.find((r) => r.path === "twoPath")!;
  expect(rows).toMatchObject({ origin: "measured", rows: [{ beat: 800, sense: 2 }] });
});
it.each([
  ["800 parsec, low", `${path} row 1 beat`, "wrong-unit"],
  ["800 Hz, sideways", `${path} row 1 sense`, "not-an-option"],
])("refuses %j at its cell", (text, at, code) => {
  const r = keep(text);
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[at, code]]);
});
it("keeps no rows that cards or zero beats hold", () => {
  const r = assignment(view(), "bands.80.rowsDialPoints", "12, 3.5 MHz, up", "measured", "typed in", stamp);
  expect(r.ok ? [] : r.issues.map((i) => i.code)).toEqual(["no-such-path"]);
});

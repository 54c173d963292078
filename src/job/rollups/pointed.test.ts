import { describe, expect, it } from "vitest";
import { patterns } from "../../set/patterns/kinds";
import { sheets } from "../../sheets/index";
import type { Entry } from "../document";
import { formatVersion } from "../format";
import { type JobView, subjectsIn, viewOf } from "../view";
import { subjectFirst } from "./pointed";

const set = patterns[1];
const made = "2026-01-01T00:00:00Z";
const job = (entries: readonly Entry[]): JobView =>
  viewOf({ format: "fettle-job", version: formatVersion, id: "j", name: "j", created: made, set, entries: [...entries] });
const noticed = (place: string): Entry => ({
  id: "e1",
  at: made,
  who: "t",
  kind: "fault",
  fault: "f1",
  place,
  does: "notice",
  words: "weak",
  rests: [],
});
const untouched = job([]);
const suspects = sheets.find((s) => s.id === "suspects")!;
const stages = subjectsIn(untouched, suspects).map((at) => at.replace("stages.", ""));
const chosen = sheets.filter((s) => subjectsIn(untouched, s).length > 1);

describe("the place that a question opens on", () => {
  it("is chosen by many, so that this means something", () => expect(chosen.length).toBeGreaterThan(5));
  it.each(chosen.map((s) => [s.id, s] as const))("%s: is where the fault is, whichever place that is", (_, sheet) => {
    for (const subject of subjectsIn(untouched, sheet)) {
      const tube = set.tubes.find((t) => `tubes.${t.socket}` === subject);
      const place = tube ? `stages.${tube.stage}` : subject;
      const faulty = job([noticed(place)]);
      const at = subjectFirst(faulty, sheet);
      const there = tube ? set.tubes.filter((t) => t.stage === tube.stage).map((t) => `tubes.${t.socket}`) : [subject];
      expect(there).toContain(at);
    }
  });
  it("is that of the out-of-chart reading, though nobody has noted a fault", () => {
    const last = set.tubes.find((t) => t.stage === stages[stages.length - 1]);
    const fields = { "row 1: Tube": last?.socket ?? "", "row 1: Electrode": "screen", "row 1: Chart V": "100", "row 1: Measured V": "40" };
    const said = { "Line volts": "117", Meter: "digital", "Chart's meter and line": "20 kΩ/V, 117 V" };
    const read = job([{ id: "e1", at: made, who: "t", kind: "form", form: "voltage-chart", fields: { ...said, ...fields } }]);
    expect(stages.length).toBeGreaterThan(1);
    expect(subjectFirst(read, suspects)).toBe(`stages.${last?.stage}`);
  });
  it.each(stages.map((s) => [s]))("is %s where work there has disturbed what was proved, and a fault comes before that", (stage) => {
    const step = set.stages.find((s) => s.id === stage)?.steps[0] ?? "";
    const disturbed: Entry = {
      id: "e2",
      at: made,
      who: "t",
      kind: "work",
      work: "tube-changed",
      subject: `stages.${stage}`,
      note: "",
      makes: [{ target: step, makes: "redo", task: "again", why: "another tube" }],
      rests: [],
    };
    // of stages that share the step, the first
    const first = stages.find((id) => set.stages.find((s) => s.id === id)?.steps.includes(step));
    expect(subjectFirst(job([disturbed]), suspects)).toBe(`stages.${first}`);
    const other = stages.find((s) => s !== first) ?? "";
    expect(subjectFirst(job([disturbed, noticed(`stages.${other}`)]), suspects)).toBe(`stages.${other}`);
  });
  it("is the first of its kind where the thread points at none of them", () => {
    for (const s of chosen) expect(subjectFirst(untouched, s, ["nowhere"])).toBe(subjectsIn(untouched, s)[0]);
  });
});

import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import { dialScale } from "../faces/report/dial-papers";
import { dialCases, inventDial } from "../infer/dial/possible-dials";
import type { Entry, JobDocument } from "../job/document";
import { benchOf, dialPoints, type JobView, viewOf } from "../job/view";
import { patterns } from "../set/patterns/kinds";
import { dial } from "../sheets/dial/sheet";
import { orThrow } from "../units/issue";
import { assignment } from "./assignment";
import { zeroBeat } from "./read-in/zero-beat";
import { takeBackBeat, takeBackRow } from "./take-back-beat";

let count = 0;
const stamp = { newId: () => `e${++count}`, at: "2026-02-03T00:00:00Z", who: "t" };
const document: JobDocument = { format: "fettle-job", version: 5, id: "j", name: "j", created: stamp.at, set: patterns[1], entries: [] };
const andThen = (view: JobView, entries: readonly Entry[]): JobView =>
  viewOf({ ...document, entries: [...view.document.entries, ...entries] });
const beats = inventDial(dialCases[2], 4).points;
/** Eleven zero beats of one reading, as from a file, the fifth with a wrong frequency; then one that was typed. */
function job(): JobView {
  const first = orThrow(
    zeroBeat(viewOf(document), { band: "80", setPoint: "", reading: "10", frequency: "3.5 MHz", approach: "up" }, stamp),
  );
  if (first.kind !== "reading") throw new Error("a reading");
  const columns = {
    reading: beats.map((p) => p.reading),
    frequencyHz: beats.map((p, i) => p.frequencyHz + (i === 4 ? 50e3 : 0)),
    approach: beats.map(() => 1),
  };
  const many: Entry = { ...first, id: "many", reading: { ...first.reading, id: "r1", columns } };
  const typed: Entry = {
    ...first,
    id: "one",
    reading: { ...first.reading, id: "r2", columns: { reading: [50], frequencyHz: [3.7e6], approach: [1] } },
  };
  return viewOf({ ...document, entries: [many, typed] });
}

describe("taking one zero beat back", () => {
  it("takes the one that the sheet calls odd out of a reading of many, and leaves the others as they were", () => {
    const before = job();
    const odd = orThrow(answer(dial, benchOf(before, "bands.80"), { draws: 10, points: 11 })).findings.find((f) =>
      f.id.startsWith("dial-odd-"),
    );
    expect(odd?.id).toBe("dial-odd-5");
    const { entries, said } = orThrow(takeBackRow(before, "80", undefined, 5, stamp));
    expect(said).toBe(`${beats[4].reading} is ${(beats[4].frequencyHz + 50e3) / 1e3} kHz`);
    const left = dialPoints(andThen(before, entries), "bands.80");
    expect(left).toHaveLength(11);
    expect(left.some((p) => p.reading === beats[4].reading)).toBe(false);
    for (const [i, p] of beats.entries()) if (i !== 4) expect(left.filter((q) => q.reading === p.reading)).toHaveLength(1);
  });
  it("supersedes a reading that holds that one beat only, and can be asked once", () => {
    const before = job();
    const entries = orThrow(takeBackBeat(before, "r2", 0, "misread", stamp));
    expect(entries.map((e) => e.kind)).toEqual(["correction"]);
    const view = andThen(before, entries);
    expect(dialPoints(view, "bands.80")).toHaveLength(11);
    const again = takeBackBeat(view, "r2", 0, "misread", stamp);
    expect(again.ok ? "" : again.issues[0].code).toBe("no-reading");
    const none = takeBackRow(view, "80", undefined, 12, stamp);
    expect(none.ok ? "" : `${none.issues[0].code}: ${none.issues[0].expected}`).toBe("no-row: a row of its zero beats: 1 to 11");
  });
});

describe("where the set is used", () => {
  it("is stated once, for every band and paper of the job; until then no edge is on the scale, and it says so", () => {
    const before = job();
    const unsaid = orThrow(dialScale(before, "bands.80", {}));
    expect(unsaid).toContain("the ITU Region isn't recorded");
    expect(unsaid).not.toContain('stroke-width="0.6"');
    const fact = orThrow(assignment(before, "place.region", "ITU Region 2", { origin: "stated", why: "asked" }, stamp));
    expect(fact).toMatchObject({ kind: "fact", path: "place.region", value: "ITU Region 2" });
    const stated = orThrow(dialScale(andThen(before, [fact]), "bands.80", {}));
    expect(stated).toContain("Band edges: ITU Region 2.");
    const wrong = assignment(before, "place.region", "Region 9", { origin: "stated", why: "asked" }, stamp);
    expect(wrong.ok ? "" : wrong.issues[0].code).toBe("not-an-option");
  });
});

describe("zero beats from before work that moved the dial", () => {
  const work = (kind: string, subject: string): Entry => ({
    ...{ id: `w-${kind}-${subject}`, at: stamp.at, who: "t", kind: "work", work: kind, subject, note: "", makes: [], rests: [] },
  });
  it("tell of a dial that is no more: of that band, or of every one where none was named", () => {
    const before = job();
    const beats = (entries: readonly Entry[]): number => dialPoints(andThen(before, entries), "bands.80").length;
    expect(beats([])).toBe(12);
    expect(beats([work("oscillator-aligned", "bands.80")])).toBe(0);
    expect(beats([work("oscillator-aligned", "bands.40")])).toBe(12);
    expect(beats([work("pointer-moved", "")])).toBe(0);
    expect(beats([work("resistor-replaced", "")])).toBe(12);
    const last = before.inForce[before.inForce.length - 1];
    const anew = last.kind === "reading" ? [{ ...last, id: "anew", reading: { ...last.reading, id: "r3" } }] : [];
    expect(beats([work("oscillator-aligned", ""), ...anew])).toBe(1);
  });
});

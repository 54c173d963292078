import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SetDescription } from "../set/describe";
import { quantityAt } from "../set/paths";
import { patterns } from "../set/patterns/kinds";
import { isOpen } from "../standards/cautions";
import { orThrow } from "../units/issue";
import { type Entry, type JobDocument, jobJsonSchema } from "./document";
import { nextSteps } from "./next";
import { card, isolatedAct, safetyIn, wholeRecord } from "./proved.testdata";
import { migrate, readJob } from "./read-job";
import { steps } from "./steps";
import { benchOf, fallWith, viewOf } from "./view";
import { planWork } from "./works";

const document = (entries: Entry[] = [], set: SetDescription = patterns[1]): JobDocument => ({
  format: "fettle-job",
  version: 5,
  id: "j",
  name: "j",
  created: "2026-01-01T00:00:00Z",
  set,
  entries,
});
let n = 0;
const head = () => ({ id: `e${++n}`, at: "2026-01-02T00:00:00Z", who: "t" });
const done = (step: string): Entry => ({ ...head(), kind: "done", step, note: "" });
const stamp = { at: "2026-01-03T00:00:00Z", who: "t", newId: () => `w${++n}` };
const wanted = { ...patterns[1], fittings: patterns[1].fittings.map((f) => ({ ...f, state: "planned" as const })) };
const allDone = [...wholeRecord(head), ...steps.filter((s) => !["31a", "31b", "36"].includes(s.id)).map((s) => done(s.id))];
const ask = { draws: 60, points: 11 };

describe("cable fitted at the mixer plate", () => {
  const before = viewOf(document(allDone, wanted));
  const plan = orThrow(planWork(before, { work: "cable-fitted", subject: "fittings.qm" }, stamp, ask));
  const after = viewOf(document([...allDone, ...plan.entries], wanted));
  const next = nextSteps(after);
  it("makes due again the first can, selectivity, gain, BFO, S meter and AVC, and the final safety test", () => {
    expect(
      after.steps
        .filter((s) => s.state === "due again")
        .map((s) => s.id)
        .sort(),
    ).toEqual(["13", "20", "22", "27", "31e", "33b", "35"]);
    // what nobody has done yet is not due again, but is told what came since
    expect(next.find((i) => i.step === "31b")).toMatchObject({ state: "untouched", task: "Set and centre the accessory" });
    expect(next.find((i) => i.step === "31b")?.why).toMatch(/^not done yet; a lead without its accessory/);
  });
  it("begins with re-peaking the first can, and ends with the final safety test before hand-over, each with why", () => {
    expect(next.find((i) => i.state === "due again")).toMatchObject({ step: "20", task: "Re-peak the first can" });
    expect(next.slice(-2).map((i) => i.step)).toEqual(["35", "36"]);
    for (const i of next) expect(i.why.length).toBeGreaterThan(5);
  });
  it("takes the mixer stage's gain again only after the accessory is set", () => {
    const at = (id: string) => next.findIndex((i) => i.step === id);
    expect(at("13")).toBeGreaterThan(at("31b"));
  });
  it("says that an amount is old once its place has new values", () => {
    const longer: Entry = {
      ...head(),
      at: "2026-01-04T00:00:00Z",
      kind: "values",
      values: { "fittings.qm.cableLength": { value: 3, spread: { shape: "exact" }, origin: "measured", source: "ruler" } },
      why: "a longer one",
    };
    const amount = (entries: Entry[]) => nextSteps(viewOf(document([...allDone, ...entries], wanted))).find((i) => i.step === "20")?.amount;
    expect(amount([...plan.entries, longer])).toContain("ask the question again");
    expect(amount([...plan.entries])).not.toContain("anew");
  });
  it("says by how much, from the sheet, and keeps the answer that it rests on", () => {
    expect(next.find((i) => i.step === "20")!.amount).toMatch(/shift of the first primary: -\d+/);
    const work = after.works[0];
    expect(work.rests[0]).toMatchObject({ sheet: "cable-load", version: 2, seed: 1, draws: 60 });
    expect(work.rests[0].results.primaryDetune).toMatch(/kHz/);
  });
  it("hangs the cable on the strip until the accessory is set", () => {
    const hanging = benchOf(after, "").stripAsFitted()!.cans[0].addedCapacitance.value;
    expect(hanging).toBeGreaterThan(50e-12);
    expect(benchOf(after, "").strip()!.cans[0].addedCapacitance.value).toBe(0);
    const set = orThrow(planWork(after, { work: "accessory-set", subject: "fittings.qm" }, stamp, ask));
    expect(
      benchOf(viewOf(document([...allDone, ...plan.entries, ...set.entries])), "").stripAsFitted()!.cans[0].addedCapacitance.value,
    ).toBe(0);
  });
  it("doing the step again clears it; later work makes it due once more", () => {
    const redone = viewOf(document([...allDone, ...plan.entries, done("20")]));
    expect(redone.steps.find((s) => s.id === "20")!.state).toBe("proven");
    const again = orThrow(planWork(redone, { work: "cable-length-changed", subject: "fittings.qm" }, stamp, ask));
    expect(viewOf(document([...allDone, ...plan.entries, done("20"), ...again.entries])).steps.find((s) => s.id === "20")!.state).toBe(
      "due again",
    );
  });
  it("refuses a kind of work that is not in the table, naming the nearest that are", () => {
    const r = planWork(before, { work: "cable-fited" }, stamp, ask);
    expect(r.ok ? "" : r.issues[0].expected).toContain("cable-fitted");
  });
});

describe("a job over time", () => {
  it("puts safety first in a new job, and everything in the order of least rework", () => {
    const next = nextSteps(viewOf(document()));
    expect(next.slice(0, 9).map((i) => i.step)).toEqual(["01", "02", "03", "04", "05", "06", "07", "11", "08"]);
    expect(next.at(-1)!.step).toBe("36");
    // at the first open step everything is said; the same state again is not warned of again
    expect(next[1].cautions.map((c) => c.id)).toEqual(["open-dead", "line", "live-chassis"]);
    expect(next[2].cautions).toEqual([]);
    expect(next.find((i) => i.step === "08")!.cautions.map((c) => c.id)).toEqual(["open-live"]);
    expect(next.flatMap((i) => i.cautions.map((c) => c.id)).filter((c) => !c.startsWith("open-"))).toEqual([
      "line",
      "live-chassis",
      "heat",
    ]);
    expect(next.find((i) => i.step === "33a")!.cautions).toEqual([]);
  });
  it("a correction supersedes, the history stays, and correcting the correction brings it back", () => {
    const q: Entry = {
      ...head(),
      kind: "values",
      values: { "line.voltage": { value: 121, spread: { shape: "exact" }, origin: "measured", source: "meter" } },
      why: "meter",
    };
    const wrong: Entry = { ...head(), kind: "correction", supersedes: q.id, why: "wrong scale" };
    const back: Entry = { ...head(), kind: "correction", supersedes: wrong.id, why: "it was right" };
    const volts = (e: Entry[]) => quantityAt(viewOf(document(e)).set, "line.voltage")!.value;
    expect([volts([]), volts([q]), volts([q, wrong]), volts([q, wrong, back])]).toEqual([117, 121, 117, 121]);
    expect(viewOf(document([q, wrong])).document.entries).toHaveLength(2);
  });
  it("a value of the set is reached by its path, in fittings and cans too", () => {
    const at = (path: string, value: number): Entry => ({
      ...head(),
      kind: "values",
      values: { [path]: { value, spread: { shape: "exact" }, origin: "measured", source: "x" } },
      why: "",
    });
    const v = viewOf(document([at("fittings.qm.cableLength", 2), at("strip.can2.primaryQ", 99)]));
    expect(benchOf(v, "fittings.qm").quantity("fittings.qm.cableLength")!.value).toBe(2);
    expect(benchOf(v, "").strip()!.cans[1].primaryQ.value).toBe(99);
  });
});

describe("doing no harm", () => {
  const live = patterns.find((p) => p.chassis.state === "live")!;
  const at = `fittings.${live.fittings[0]?.id ?? "qm"}`;
  it.each([live, { ...patterns[1], chassis: { ...patterns[1].chassis, state: "unstated" as const } }])(
    "says danger, and to stop, before work that joins something to a chassis that is live or not stated (%#)",
    (set) => {
      const view = viewOf(document([], set));
      const plan = orThrow(planWork(view, { work: "cable-fitted", subject: at }, stamp, ask));
      expect(plan.danger).toMatchObject({ severity: "danger" });
      expect(plan.due[0]).toMatchObject({ target: "03" });
      expect(plan.due[0].task).toMatch(/unplug/i);
      expect(orThrow(planWork(view, { work: "pointer-moved" }, stamp, ask)).danger).toBeUndefined();
      // what was proved of isolation before is due again, and stands first after inspection
      const after = viewOf(document([done("01"), card(head, "safety-in", safetyIn), done("02"), done("03"), ...plan.entries], set));
      expect(nextSteps(after)[0]).toMatchObject({ step: "03", state: "due again" });
    },
  );
  it("says nothing of the kind on a chassis that is proved isolated", () =>
    expect(
      orThrow(planWork(viewOf(document([isolatedAct(head)])), { work: "cable-fitted", subject: "fittings.qm" }, stamp, ask)).danger,
    ).toBeUndefined());
  it("warns of line and live chassis before the first open step at a live set, and of the state wherever it turns open", () => {
    let now = "desk";
    let first = true;
    for (const i of nextSteps(viewOf(document([], live)))) {
      const ids = i.cautions.map((c) => c.id);
      if (isOpen(i.wants) && i.wants !== now) expect(ids).toContain(i.wants);
      if (isOpen(i.wants) && first) {
        expect(ids).toEqual(expect.arrayContaining(["line", "live-chassis"]));
        first = false;
      }
      now = i.wants;
    }
    expect(first).toBe(false);
  });
  it("counts the work that a step is made of as begun, never as proved", () => {
    const plan = orThrow(planWork(viewOf(document([done("31a")])), { work: "cable-fitted", subject: "fittings.qm" }, stamp, ask));
    expect(plan.entries).toHaveLength(1);
    expect(viewOf(document([done("31a"), ...plan.entries])).steps.find((s) => s.id === "31a")!.state).toBe("in work");
  });
});

describe("what falls together", () => {
  const q = { value: 1e3, spread: { shape: "exact" }, origin: "fitted", source: "fit" } as const;
  const reading = (id: string): Entry => ({
    ...head(),
    kind: "reading",
    reading: {
      id,
      as: "if-sweep",
      state: "as-found",
      step: "33b",
      stage: "",
      instrument: "",
      thermal: "warm",
      file: { name: "a", hash: "" },
      columns: {},
      figures: [],
      warnings: [],
    },
  });
  const estimate = (from: string): Entry => ({
    ...head(),
    kind: "estimate",
    note: "",
    estimate: { id: `fit-${from}`, names: [], values: [], logarithmic: [], covariance: [], fromReadings: [from], model: "strip" },
  });
  const values = (from: string): Entry => ({ ...head(), kind: "values", values: { "line.voltage": q }, why: "", fit: `fit-${from}` });
  const entries = [reading("r1"), estimate("r1"), values("r1"), reading("r2"), estimate("r2"), values("r2"), done("01")];
  const view = viewOf(document(entries));
  const fallen = (i: number, whole?: boolean) => fallWith(view, entries[i], whole).map((e) => entries.indexOf(e));
  it("a reading takes its fit along, a part of a fit the whole fit, and nothing of another reading", () => {
    expect(fallen(0)).toEqual([0, 1, 2]);
    expect(fallen(2)).toEqual([1, 2]);
    expect(fallen(1)).toEqual([1, 2]);
    expect(fallen(6)).toEqual([6]);
  });
  it("taken back as the last thing done, a fit takes its reading along", () => {
    expect(fallen(5, true)).toEqual([3, 4, 5]);
    expect(fallen(6, true)).toEqual([6]);
  });
});

describe("the format", () => {
  it("has a JSON Schema from the same definition", () => expect(JSON.stringify(jobJsonSchema())).toContain("fettle-job"));
  it("migrates step by step, and refuses where a step is missing", () => {
    const by = { 1: (o: Record<string, unknown>) => ({ ...o, a: 1 }), 2: (o: Record<string, unknown>) => ({ ...o, b: 2 }) };
    expect(migrate({ version: 1, x: 0 }, by, 3)).toEqual({ version: 3, x: 0, a: 1, b: 2 });
    expect(migrate({ version: 1 }, {}, 2)).toBeUndefined();
  });
  it("keeps keys it does not know", () =>
    expect(orThrow(readJob({ ...document([{ ...done("01"), extra: 1 } as Entry]), motto: "x" })).document).toMatchObject({
      motto: "x",
      entries: [{ extra: 1 }],
    }));
  it.each([
    [{ ...document(), version: 7 }, "version", "newer"],
    [{ ...document(), format: "x" }, "format", "fettle-job"],
    [{ ...document(), set: { ...patterns[1], line: 5 } }, "set.line", "object"],
    [[], "job.json", "a job"],
    [null, "job.json", "a job"],
  ])("refuses case %# with the field", (data, path, expected) => {
    const r = readJob(data);
    expect(r.ok).toBe(false);
    if (!r.ok) {
      expect(r.issues[0].path).toContain(path);
      expect(r.issues[0].expected).toContain(expected);
    }
  });
  it("under thousands of damaged jobs: a valid job or a located issue", () => {
    const text = JSON.stringify(document([done("01"), { ...head(), kind: "fact", path: "chassis.state", value: "live", why: "" }]));
    fc.assert(
      fc.property(
        fc.nat(text.length),
        fc.nat(8),
        fc.oneof(fc.string({ maxLength: 6 }), fc.constantFrom("null", "1e999", "[]", "{}", '"x"', "-1")),
        (at, cut, put) => {
          let data: unknown;
          try {
            data = JSON.parse(text.slice(0, at) + put + text.slice(at + cut));
          } catch {
            return;
          }
          const r = readJob(data);
          if (r.ok) viewOf(r.value.document);
          else expect(r.issues[0].path).toMatch(/^job\.json/);
        },
      ),
      { numRuns: 6000 },
    );
  });
});

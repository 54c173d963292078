import { describe, expect, it } from "vitest";
import type { SetDescription } from "../set/describe";
import { patterns } from "../set/patterns/kinds";
import { orThrow } from "../units/issue";
import { admit } from "./admit";
import { chassisIssues, groundOf } from "./chassis-proof";
import type { Entry, JobDocument } from "./document";
import { proofIssues } from "./next";
import { card, comingIn, firstPower, isolatedAct, safetyIn, safetyOut, wholeRecord } from "./proved.testdata";
import { viewOf } from "./view";
import { planWork } from "./works";

let n = 0;
const head = () => ({ id: `e${++n}`, at: "2026-01-02T00:00:00Z", who: "t" });
const done = (step: string): Entry => ({ ...head(), kind: "done", step, note: "" });
const stamp = { at: "2026-01-03T00:00:00Z", who: "t", newId: () => `w${++n}` };
const viewWith = (entries: Entry[], set: SetDescription = patterns[1]) =>
  viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "2026-01-01T00:00:00Z", set, entries } as JobDocument);
const state = (entries: Entry[], step: string) => viewWith(entries).steps.find((s) => s.id === step)!.state;
const codes = (entries: Entry[], step: string) =>
  proofIssues(viewWith(entries), step).map((i) => `${i.path.replace(/^.* card, /, "")}: ${i.code}`);
const proved = ["02", "03", "04", "08"].map(done);
const ready = [...comingIn(head), ...proved];

describe("a safety step is proved by its measured values alone", () => {
  it("the whole record, then the word, proves it", () => {
    for (const step of ["02", "03", "04", "08"]) expect(codes(ready, step), step).toEqual([]);
    const whole = [...wholeRecord(head), ...proved, done("35")];
    for (const step of ["02", "03", "04", "08", "35"]) expect(state(whole, step), step).toBe("proven");
    expect(codes(whole, "36")).toEqual([]);
  });
  it("a word without the record proves nothing, whatever face or file it came by", () => {
    for (const step of ["02", "03", "04", "08", "35", "36"]) expect(state([done(step)], step)).toBe("in work");
  });
  it.each(Object.keys(safetyOut))("going out without %s names it, and hand-over waits", (field) => {
    const { [field]: _, ...rest } = safetyOut;
    const entries = [...ready, card(head, "safety-out", rest)];
    const missing =
      field === "Cord type" ? ["Cord type: not-measured"] : field === "Bond, Ω" ? ["Bond, Ω: not-measured"] : [`${field}: not-measured`];
    expect(codes(entries, "35")).toEqual(missing);
    expect(codes([...entries, done("35")], "36")).toContain(missing[0]);
  });
  it.each([
    ["Insulation line to chassis, MΩ", "0.5"],
    ["Insulation line to chassis, MΩ", "0"],
    ["Touch current one way, mA", "2.1"],
    ["Bond, Ω", "1.2"],
    ["Line bypass parts and class", "0.02 wax"],
    ["Line bypass parts and class", "none marked, 20 nF"],
    ["Line bypass parts and class", "out of date wax paper"],
    ["Line bypass parts and class", "wax paper, not removed"],
    ["Line bypass parts and class", "to be taken out"],
    ["Line bypass parts and class", "Y2 to be fitted"],
    ["Line bypass parts and class", "no Y2 mark"],
    ["Strain relief", "no"],
    ["Fuse rating and type", "none"],
  ])("%s of %s fails, and says the limit", (field, text) => {
    const failing = proofIssues(viewWith([...ready, card(head, "safety-out", { ...safetyOut, [field]: text })]), "35");
    expect(failing.filter((i) => i.code === "fails")).toMatchObject([{ read: text, path: `safety-out card, ${field}` }]);
  });
  it.each([
    "none",
    "none fitted",
    "Out.",
    "taken out",
    "removed, not replaced",
    "removed, Y2 2.2 nF in its place",
    "Y2, 2.2 nF",
    "Y1 4.7 nF, new",
  ])("a line bypass of which is said %s is decided on", (said) => {
    const entries = [...ready, card(head, "safety-out", { ...safetyOut, "Line bypass parts and class": said })];
    expect(proofIssues(viewWith(entries), "35").filter((i) => i.code === "fails")).toEqual([]);
  });
  it("hand-over falls with work inside, and is said anew: a new record alone does not bring it back", () => {
    const over = [...wholeRecord(head), ...proved, done("35"), done("36")];
    expect(state(over, "36")).toBe("proven");
    const work = orThrow(planWork(viewWith(over), { work: "tube-replaced" }, stamp)).entries;
    const again = [...over, ...work, card(head, "safety-out", safetyOut)];
    expect(state(again, "36")).toBe("in work");
    expect(state([...again, done("35")], "36")).toBe("in work");
    expect(state([...again, done("35"), done("36")], "36")).toBe("proven");
  });
  it("a value that turns bad later takes the proof away", () => {
    const later = card(head, "safety-in", { ...safetyIn, "Insulation line to chassis, MΩ": "0" });
    expect(state(ready, "03")).toBe("proven");
    expect(state([...ready, later], "03")).toBe("in work");
  });
  it.each([
    ["Tester used", "none"],
    ["Tester used", "0"],
    ["Date and sign", "1 Jan 1950, T."],
    ["Date and sign", "T."],
    ["Cord type", "?"],
    ["Fuse rating and type", "-"],
    ["Volts left after 10 s, V", "400"],
  ])("%s of %s says nothing, or fails", (field, text) => {
    expect(codes([...ready, card(head, "safety-out", { ...safetyOut, [field]: text })], "35")).toContain(`${field}: fails`);
  });
  it("a word that names nothing signs no page", () => {
    for (const text of ["0", "yes", "x"])
      expect(codes([card(head, "safety-in", { ...safetyIn, "Page before opening read, signed": text })], "02")).toEqual([
        "Page before opening read, signed: fails",
      ]);
  });
  it("nothing that is done with power on is proved before first power is, and a final test not before", () => {
    for (const step of ["09", "10", "20", "33a", "35"])
      expect(
        codes([], step).some((c) => c.endsWith("not-before")),
        step,
      ).toBe(true);
    expect(state([...comingIn(head), done("20")], "20")).toBe("in work");
    expect(state([...ready, done("20")], "20")).toBe("proven");
    for (const step of ["01", "06", "11", "16"]) expect(codes(ready, step)).toEqual([]);
  });
  it("hand-over waits for what work has made due again", () => {
    const view = viewWith([...wholeRecord(head), ...proved, done("35")]);
    const work = orThrow(planWork(view, { work: "if-aligned" }, stamp, { draws: 20, points: 11 })).entries;
    expect(codes([...wholeRecord(head), ...proved, done("35"), ...work], "36")).toEqual(expect.arrayContaining(["step 36: due-again"]));
  });
  it("0 V behind the bulb is a value, and a dead short", () => {
    const short = [
      ...comingIn(head),
      card(head, "first-power", { ...firstPower, "Volts on the set behind the bulb, V": "0" }),
      ...proved.slice(0, 3),
    ];
    expect(codes(short, "08")).toEqual(["Volts on the set behind the bulb, V: fails"]);
  });
  it("values older than work that touched them no longer count, and say so", () => {
    const view = viewWith([...wholeRecord(head), ...proved]);
    const work = orThrow(planWork(view, { work: "supply-changed" }, stamp, { draws: 20, points: 11 })).entries;
    const after = [...wholeRecord(head), ...proved, ...work];
    expect(
      viewWith(after)
        .steps.filter((s) => s.due.length > 0)
        .map((s) => s.id),
    ).toEqual(expect.arrayContaining(["08", "09", "35"]));
    const stale = codes(after, "08").filter((c) => c.endsWith("older-than-work"));
    // first power's own record, and the ohms that come before it
    expect(stale).toEqual(
      expect.arrayContaining(["Current at full line, A: older-than-work", "B+ to chassis once settled, kΩ: older-than-work"]),
    );
    const again = [...after, card(head, "safety-in", safetyIn), done("04"), card(head, "first-power", firstPower)];
    expect(codes(again, "08")).toEqual([]);
  });
  it("what was brought in from elsewhere proves nothing here", () => {
    const brought = ready.map((e): Entry => ({ ...e, broughtIn: { at: "2026-01-05T00:00:00Z", by: "t" } }));
    expect(viewWith(brought).chassis).toBe("unstated");
    for (const step of ["02", "03", "04", "08"]) expect(state(brought, step), step).toBe("in work");
    expect(state([...brought, ...ready.map((e) => ({ ...e, id: `${e.id}x` }))], "03")).toBe("proven");
  });
  it("a survey is proved by its card: the capacitors are not done while it is empty", () => {
    const before = viewWith([...wholeRecord(head), ...proved]);
    expect(proofIssues(before, "05").map((i) => [i.path, i.code])).toEqual([
      ["capacitors card, a row for each capacitor that was looked at", "not-measured"],
    ]);
    const row = card(head, "capacitors", { "row 1: Part": "C1", "row 1: Kind": "film", "row 1: Value": "10 nF", "row 1: Rated V": "400" });
    expect(proofIssues(viewWith([...wholeRecord(head), ...proved, row]), "05")).toEqual([]);
  });
  it("order holds as well: first power waits for inspection, isolation and ohms", () => {
    expect(codes([isolatedAct(head), card(head, "first-power", firstPower)], "08").filter((c) => c.endsWith("not-before"))).toHaveLength(3);
  });
});

describe("the chassis is proved by an act with its evidence", () => {
  const isolated = isolatedAct(head);
  const claim = isolated.kind === "chassis" ? isolated : undefined;
  it("a pattern's or a list's word proves nothing", () => {
    expect(viewWith([]).chassis).toBe("unstated");
    expect(viewWith([{ ...head(), kind: "fact", path: "chassis.state", value: "isolated", why: "a list" }]).chassis).toBe("unstated");
    expect(viewWith([], patterns[0]).chassis).toBe("live");
  });
  it("a set that is fed from the line has no transformer of its own, whatever the ohms", () => {
    expect(viewWith([isolated], patterns[0]).chassis).toBe("live");
    expect(chassisIssues(claim!, groundOf(patterns[0], [])).map((i) => i.path)).toEqual(["chassis"]);
  });
  it("an insulation that fails on the card takes the proof away", () => {
    const short = card(head, "safety-in", { ...safetyIn, "Insulation line to chassis, MΩ": "0" });
    expect(viewWith([isolated, short]).chassis).toBe("unstated");
    expect(viewWith([short, isolated]).chassis).toBe("unstated");
    for (const step of ["03", "04", "08"]) expect(state([...ready, short], step), step).toBe("in work");
  });
  it.each(["none", "x", "20 VA"])("behind a transformer said to be %s it is not proved dead", (transformer) => {
    const act = { ...claim!, state: "live-proved-dead" as const, transformer };
    expect(chassisIssues(act, groundOf(patterns[0], [])).map((i) => i.path)).toContain("transformer");
  });
  it("what was measured does, until work on the line side", () => {
    expect(viewWith([isolated]).chassis).toBe("isolated");
    const work = orThrow(planWork(viewWith([isolated]), { work: "cord-changed" }, stamp)).entries;
    expect(viewWith([isolated, ...work]).chassis).toBe("unstated");
    expect(viewWith([isolated, ...work, isolatedAct(head)]).chassis).toBe("isolated");
  });
  const factOf = (path: string, value: string): Entry => ({ ...head(), kind: "fact", path, value, why: "" });
  const quantityOf = (path: string, value: number, origin: "stated" | "assumed" = "stated"): Entry => ({
    ...head(),
    kind: "values",
    values: { [path]: { value, spread: { shape: "exact" }, origin, source: "x" } },
    why: "",
  });
  it.each([[[factOf("supplies.rectifier", "half wave from the line")]], [[factOf("supplies.rectifier", "full wave, another winding")]]])(
    "falls with a fact that it rested on, whoever changes it: %j",
    (changes) => {
      const after = [...ready, ...changes];
      expect(viewWith(after).chassis).not.toBe("isolated");
      expect(state(after, "03")).toBe("in work");
      expect(codes(after, "03")).toContain("chassis: chassis-not-proved");
      expect(viewWith(after).chassisFell).toMatch(/^supplies\.rectifier was changed on .*after it was proved$/);
    },
  );
  it.each([
    ["safety.cord", factOf("safety.cord", "three-wire"), factOf("safety.cord", "two-wire")],
    ["safety.bypassClass", factOf("safety.bypassClass", "none fitted"), factOf("safety.bypassClass", "no class")],
    ["safety.bypass", quantityOf("safety.bypass", 0), quantityOf("safety.bypass", 5e-8)],
    ["plateWatts", quantityOf("plateWatts", 60), quantityOf("plateWatts", 80)],
  ])("falls with %s changed, and stands where it is said for the first time or once more", (_, said, other) => {
    const again = (e: Entry): Entry => ({ ...e, id: `${e.id}-2` });
    expect(viewWith([...ready, said]).chassis).toBe("isolated");
    expect(viewWith([said, ...ready, again(said)]).chassis).toBe("isolated");
    expect(viewWith([said, ...ready, other]).chassis).toBe("unstated");
    expect(viewWith([said, ...ready, other, isolatedAct(head)]).chassis).toBe("isolated");
  });
  it("a description that is changed to be able to prove leaves the doubt, until what said it is taken back", () => {
    const other = factOf("supplies.rectifier", "full wave, own transformer");
    const act = isolatedAct(head);
    expect(viewWith([other, act], patterns[0]).chassis).toBe("live");
    const view = viewWith([other], patterns[0]);
    const refused = admit(view, [act]);
    expect(refused.ok ? "" : refused.issues[0].expected).toMatch(/was first described with its rectifier fed from the line/);
    const slip = factOf("supplies.rectifier", "half wave from the line");
    expect(viewWith([slip, other, act]).chassis).toBe("unstated");
    const back: Entry = { ...head(), kind: "correction", supersedes: slip.id, why: "a slip" };
    expect(viewWith([slip, other, back, act]).chassis).toBe("isolated");
  });
  it("a smaller set on paper takes no smaller transformer", () => {
    const ground = groundOf(patterns[0], [quantityOf("plateWatts", 60), quantityOf("plateWatts", 5)]);
    expect(ground.plateWatts).toBe(60);
    expect(groundOf(patterns[0], [quantityOf("plateWatts", 30)]).plateWatts).toBe(
      patterns[0].plateWatts.origin === "assumed" ? 30 : patterns[0].plateWatts.value,
    );
  });
  it.each([
    [{ evidence: {} }, "ohms"],
    [{ evidence: { ohms: { value: 0, spread: { shape: "exact" }, origin: "measured", source: "x" } } }, "ohms"],
    [{ evidence: { ohms: { value: 50e6, spread: { shape: "exact" }, origin: "assumed", source: "x" } } }, "ohms"],
    [{ meter: "" }, "meter"],
    [{ how: " " }, "how"],
    [{ how: "no", meter: "none" }, "meter"],
    [{ evidence: { ohms: { value: 1e99, spread: { shape: "exact" }, origin: "measured", source: "x" } } }, "ohms"],
    [{ confirmed: false }, "confirm"],
    [{ state: "live-proved-dead" }, "transformer"],
  ] as const)("not with %j", (change, missing) => {
    const act = { ...claim!, ...change } as Entry;
    expect(act.kind === "chassis" ? chassisIssues(act, groundOf(patterns[1], [])).map((i) => i.path) : []).toContain(missing);
    expect(viewWith([act]).chassis).toBe("unstated");
  });
  it("live, behind a transformer: dead to earth both ways, across a body's resistance", () => {
    const volts = (one: number, other: number) =>
      viewWith(
        [
          {
            ...claim!,
            state: "live-proved-dead",
            transformer: "250 VA",
            evidence: Object.fromEntries(
              [
                ["voltsOneWay", one],
                ["voltsOtherWay", other],
              ].map(([k, value]) => [k, { value, spread: { shape: "exact" }, origin: "measured", source: "x" }]),
            ),
          } as Entry,
        ],
        patterns[0],
      ).chassis;
    expect(volts(0, 0.2)).toBe("live-proved-dead");
    expect(volts(0.2, 40)).toBe("live");
  });
});

describe("what a bench held back while others went on", () => {
  const late = (e: Entry): Entry => ({ ...e, at: "2026-01-02T00:00:00Z", received: "2026-01-04T00:00:00Z" });
  const touching = (before: readonly Entry[], work: string) => orThrow(planWork(viewWith([...before]), { work }, stamp)).entries;
  it("proves nothing of work that was done after it, though it came in after the work", () => {
    const work = touching(ready, "cord-changed");
    const [held, anew] = [late(card(head, "safety-in", safetyIn)), card(head, "safety-in", safetyIn)];
    const older = codes([...ready, ...work, held], "03");
    expect(older).toContain("Insulation line to chassis, MΩ: older-than-work");
    const act = { ...isolatedAct(head) };
    expect(viewWith([...ready, ...work, late(act)]).chassis).toBe("unstated");
    expect(viewWith([...ready, ...work, { ...act, at: "2026-01-03T08:00:00Z" }]).chassis).toBe("isolated");
    expect(codes([...ready, ...work, { ...act, at: "2026-01-03T08:00:00Z" }, anew], "03")).toEqual([]);
    const tubes = touching(ready, "capacitor-replaced");
    expect(state([...ready, done("05"), ...tubes, late(done("05"))], "05")).not.toBe("proven");
  });
  it("stands where the same bench held both, in their order", () => {
    const work = touching(ready, "cord-changed").map(
      (e): Entry => ({ ...e, at: "2026-01-01T12:00:00Z", received: "2026-01-04T00:00:00Z" }),
    );
    const after = [late(isolatedAct(head)), late(card(head, "safety-in", safetyIn))];
    expect(codes([...ready, ...work, ...after], "03")).toEqual([]);
  });
});

import { describe, expect, it } from "vitest";
import { demoSet } from "../../desk/demo";
import type { Entry } from "../document";
import { formatName, formatVersion } from "../format";
import { comingIn } from "../proved.testdata";
import { safetyBefore } from "../steps";
import { type JobView, viewOf } from "../view";
import { foremost } from "./foremost";
import { questionsAt, readAt, routeOf, shortAmount } from "./route";
import { whereOf } from "./where";

const common = { at: "2026-02-01T00:00:00.000Z", who: "t" };
const view = (entries: readonly Entry[] = []) =>
  viewOf({ format: formatName, version: formatVersion, id: "j", name: "Set", created: common.at, set: demoSet(), entries: [...entries] });
const viewSteps = (entries: readonly Entry[]) => view(entries).steps.flatMap((s) => (s.state === "proven" ? [s.id] : []));
const proved: Entry = {
  ...common,
  id: "c",
  kind: "chassis",
  state: "isolated",
  evidence: { ohms: { value: 30e6, spread: { shape: "normal", u: 1e6 }, origin: "measured", source: "t" } },
  meter: "insulation tester",
  how: "each blade to chassis",
  transformer: "",
  confirmed: true,
};
const cable: Entry = {
  ...common,
  id: "w",
  kind: "work",
  work: "cable-fitted",
  subject: "fittings.qm",
  note: "",
  makes: [
    {
      target: "20",
      makes: "redo",
      task: "Re-peak the first can",
      why: "the cable pulls the first primary; never force it",
      amount: "shift of the first primary: -85.5 kHz (-89.8 to -81.4)",
    },
  ],
  rests: [],
};

describe("the route of a set", () => {
  it("holds every stage and every fitting that is not only offered, each once: path, beside, hung", () => {
    const v = view();
    const places = routeOf(v);
    expect(places.map((p) => p.path).sort()).toEqual(
      [
        ...v.set.stages.map((s) => `stages.${s.id}`),
        ...v.set.fittings.filter((f) => f.state !== "offered").map((f) => `fittings.${f.id}`),
      ].sort(),
    );
    const order = places.map((p) => ["path", "beside", "hung"].indexOf(p.lies));
    expect(order).toEqual([...order].sort());
    expect(places.find((p) => p.path === "stages.supply")?.lies).toBe("beside");
  });
  it("lights what work disturbs, with by how much", () => {
    const places = routeOf(view([cable]));
    expect(places.filter((p) => p.amount === "-85.5 kHz").map((p) => p.path)).toEqual(["stages.can1", "stages.can2", "stages.can3"]);
    const stateOf = (entries: readonly Entry[]) => routeOf(view(entries)).find((p) => p.path === "stages.can1")?.state;
    const done: Entry = { ...common, id: "d", kind: "done", step: "20", note: "" };
    expect(stateOf([done, cable])).toBe("due again");
    // the work itself is begun; what nobody has aligned yet is not due again
    expect(stateOf([cable])).toBe("in work");
    expect(routeOf(view()).some((p) => p.amount)).toBe(false);
  });
  it("is proved where every step of a place is, begun where some are, and never untouched where something was mended or read", () => {
    const stateAt = (path: string, entries: readonly Entry[]) => routeOf(view(entries)).find((p) => p.path === path)?.state;
    const done = (step: string): Entry => ({ ...common, id: `d${step}`, kind: "done", step, note: "" });
    let n = 0;
    const safe = comingIn(() => ({ ...common, id: `s${++n}` }));
    const inside = view().set.stages.find((s) => s.kind === "supply")?.steps ?? [];
    expect(inside).toContain("03");
    // cord and isolation are proved, what B+ is not
    expect(stateAt("stages.supply", [...safe, done("02"), done("03")])).toBe("in work");
    expect(viewSteps([...safe, done("02"), done("03")])).toContain("03");
    expect(stateAt("stages.if1", [])).toBe("untouched");
    const part = {
      ...common,
      id: "p",
      kind: "part",
      part: "screen-resistor",
      place: "stages.if1",
      label: "",
      rests: [],
    } as unknown as Entry;
    expect(stateAt("stages.if1", [part])).toBe("in work");
    const fields = { "row 1: Tube": "V4 first IF", "row 1: Electrode": "screen", "row 1: Measured V": "66.5" };
    expect(stateAt("stages.if1", [{ ...common, id: "f", kind: "form", form: "voltage-chart", fields }])).toBe("found");
  });
  it("tells an amount in short", () => {
    expect(shortAmount("shift of the first primary: -85.5 kHz (-89.8 to -81.4)")).toBe("-85.5 kHz");
  });
  it("tells the volts of a stage's own tube, and of no other", () => {
    const card: Entry = {
      ...common,
      id: "f",
      kind: "form",
      form: "voltage-chart",
      fields: {
        "row 1: Tube": "V4 first IF",
        "row 1: Electrode": "screen",
        "row 1: Chart V": "100",
        "row 1: Measured V": "66.5",
        "row 2: Tube": "V5 second IF",
        "row 2: Measured V": "90",
      },
    };
    expect(readAt(view([card]), "stages.if1")).toEqual([{ says: "screen 66.5 V, chart 100 V", when: "on its card" }]);
  });
  it("asks a fitting only what its kind is asked", () => {
    const ids = questionsAt(view(), "fittings.qm").map((q) => q.id);
    expect(ids).toContain("q-multiplier");
    expect(ids).not.toContain("converter");
    expect(ids).toContain("cable-load");
    // a converter hangs before the antenna terminal: nothing of it goes to the mixer plate
    const asked = questionsAt(view(), "fittings.converter").map((q) => q.id);
    expect(asked).toContain("converter");
    expect(asked.filter((id) => ["cable-load", "dc-block"].includes(id))).toEqual([]);
  });
});

describe("the one sentence", () => {
  it("puts the chassis before everything", () => {
    expect(foremost(view([cable]), common.at)).toMatchObject({ wrong: "This chassis is not proved isolated, so it counts as live." });
    expect(foremost(view([cable]), common.at).now).toMatch(/^First: /);
  });
  it("says what the last work moved, and the first step that is free", () => {
    const said = foremost(view([proved, cable]), common.at);
    expect(said.wrong).toBe("Cable fitted at the mixer plate: the cable pulls the first primary: -85.5 kHz.");
    expect(said.now).toBe("Now: Intake, identity, the owner's story.");
  });
  it("says what is faulty before what is due again, and the place of it wears it until it is mended", () => {
    const chart = { "row 1: Tube": "V4 first IF", "row 1: Electrode": "screen", "row 1: Chart V": "100", "row 1: Measured V": "66.5" };
    const read: Entry = {
      ...common,
      id: "chart",
      kind: "form",
      form: "voltage-chart",
      fields: {
        ...chart,
        "Line volts": "230",
        Meter: "10 MΩ",
        "Chart's meter and line": "20 kΩ/V, 230 V",
        "row 1: Part Ω if known": "33k",
      },
    };
    const v = view([proved, cable, read]);
    expect(foremost(v, common.at).wrong).toMatch(
      /^First IF tube \(V4\): screen is low: 66\.5 V where this meter should read [\d.]+ V to [\d.]+ V\.$/,
    );
    expect(foremost(v, common.at)).toMatchObject({ faulty: "stages.if1", now: "Now: find out why.", act: { does: "seek" }, wants: "desk" });
    const worn = (of: JobView) => routeOf(of).flatMap((p) => (p.faultsCount > 0 ? [p.path] : []));
    expect(worn(v)).toEqual(["stages.if1"]);
    const act = { ...common, kind: "fault" as const, fault: "stages.if1", place: "stages.if1", words: "", rests: ["chart"] };
    const mended = view([
      proved,
      read,
      { ...act, id: "f1", does: "cause", cause: "screen bypass leaks" },
      { ...act, id: "f2", does: "mend" },
    ]);
    expect(worn(mended)).toEqual([]);
    // what was mended is read again next, once safety allows power: the six lines and the list say the same
    const onlyMended = foremost(mended, common.at);
    expect(onlyMended).toMatchObject({ faulty: "stages.if1", wrong: "First IF tube (V4) is mended, not proved yet." });
    expect(onlyMended.act).toBeUndefined();
    expect(onlyMended.items[0].safety).toBe(true);
    const safe = {
      ...mended,
      steps: mended.steps.map((s) => (safetyBefore("10").includes(s.id) ? { ...s, state: "proven" as const, due: [] } : s)),
    };
    expect(foremost(safe, common.at)).toMatchObject({ now: "Now: read it again.", act: { does: "read again" }, wants: "open-live" });
    const line = (head: string) => whereOf(safe, common.at).find((l) => l.head === head)?.says ?? "";
    expect(line("Next")).toMatch(/^Prove the mend at First IF tube \(V4\): read again V4, screen \(open, LIVE\)\. After that: /);
    expect(line("Wrong")).toMatch(/^First IF tube \(V4\): screen bypass leaks \(mended\)/);
    expect(line("Care")).toMatch(/B\+|hand|clip/i);
  });
  it("does next what the fault asks for: its cause, then what safety still wants before the set is opened, then the mending", () => {
    const act = { ...common, kind: "fault" as const, fault: "f", place: "stages.if1", words: "hums", rests: [] };
    const noticed: Entry = { ...act, id: "f1", does: "notice" };
    const cause: Entry = { ...act, id: "f2", does: "cause", cause: "screen bypass leaks" };
    expect(foremost(view([noticed]), common.at).now).toMatch(/^First: /);
    expect(foremost(view([noticed]), common.at).act).toBeUndefined();
    expect(foremost(view([proved, noticed]), common.at)).toMatchObject({
      now: "Now: find out why.",
      act: { fault: { id: "f" } },
      wants: "desk",
    });
    const waiting = foremost(view([proved, noticed, cause]), common.at);
    expect(waiting.now).toBe("First: Look it over, switched off and unplugged.");
    expect(waiting.wants).toBe("open-dead");
    expect(waiting.items.slice(0, 2).map((i) => i.step)).toEqual(["02", "01"]);
    expect(waiting.act).toBeUndefined();
    const open = view([proved, noticed, cause]);
    const v = { ...open, steps: open.steps.map((s) => (["02", "03"].includes(s.id) ? { ...s, state: "proven" as const, due: [] } : s)) };
    expect(foremost(v, common.at)).toMatchObject({
      wrong: "First IF tube (V4): screen bypass leaks.",
      now: "Now: mend it.",
      act: { does: "mend" },
      wants: "open-dead",
    });
    expect(foremost(v, common.at).cautions.at(0)?.says).toMatch(/measure/i);
  });
  it("leaves what is waited for until it has come, fault or step, and says so where nothing else is free", () => {
    const act = { ...common, kind: "fault" as const, fault: "f", place: "stages.if1", words: "hums", rests: [] };
    const wait = (id: string, about: string): Entry => ({
      ...common,
      id,
      kind: "waiting",
      for: "a 47 nF capacitor",
      until: "2027-01-01",
      about,
    });
    const noticed: Entry = { ...act, id: "f1", does: "notice" };
    expect(foremost(view([proved, noticed, wait("w", "f")]), common.at)).toMatchObject({
      now: "Now: Intake, identity, the owner's story.",
    });
    expect(foremost(view([proved, noticed, wait("w", "f")]), "2027-02-01T00:00:00Z").act).toMatchObject({ does: "seek" });
    const other = foremost(view([proved, wait("w", "01")]), common.at);
    expect(other.items[0].step).not.toBe("01");
    expect(other.waited).toBeUndefined();
    const none = view([proved, wait("w", "01")]);
    const only = { ...none, steps: none.steps.map((s) => (s.id === "01" ? s : { ...s, state: "proven" as const, due: [] })) };
    expect(foremost(only, common.at).waited).toBe("a 47 nF capacitor");
    expect(whereOf(only, common.at).find((l) => l.head === "Next")?.says).toContain("once this has come: a 47 nF capacitor");
  });
  it("claims no fault where none is known", () => {
    expect(foremost(view([proved]), common.at).wrong).toBe("Nothing is known to be wrong with this set.");
  });
});

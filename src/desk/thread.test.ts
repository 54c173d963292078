import { describe, expect, it } from "vitest";
import { offeredCells } from "../job/cards";
import { faultNamed, faultsOf, isOpenFault } from "../job/faults/faults";
import { stillToRead } from "../job/faults/proving";
import { formById } from "../job/forms";
import { partKinds } from "../job/mending/kinds";
import { workKindById } from "../job/ripple";
import { readAgain } from "../job/rollups/again";
import { judgedCells } from "../job/rollups/card-judged";
import { foundAndLeftOf } from "../job/rollups/chart-lines";
import { replacedIn } from "../job/rollups/parts";
import { whereOf } from "../job/rollups/where";
import { fallWith, type JobView } from "../job/view";
import { addressAt } from "../set/addresses";
import { quantityAt } from "../set/paths";
import { orThrow } from "../units/issue";
import { readDown } from "./fill-down";
import { mending } from "./mend";
import { act, blank, fault, first, form, issuesOf, mended, nothing, place, read, record, refusedBy, said, stamp } from "./thread.testdata";

describe("a fault", () => {
  it("is shown by a reading off its chart, and never by an example", () => {
    expect(faultsOf(blank)).toEqual([]);
    const [f, ...more] = faultsOf(read);
    expect(more).toEqual([]);
    expect(f).toMatchObject({ place, state: "noticed", unrecorded: true });
    expect(f.signs.map((s) => s.point)).toEqual([`${first.socket}, screen`, `${first.socket}, cathode`]);
    // the entry that wrote it, though the rows of the card begin at the third
    expect(f.signs.every((s) => s.entry === read.inForce[0].id)).toBe(true);
  });
  it("is proved by readings of its place that are newer than the mend, every one that was wrong, and by nothing else", () => {
    const found = record(record(read, act("notice", { words: "screen low" })), act("cause", { cause: "screen resistor high" }));
    expect(issuesOf(() => record(found, act("close")))).toContain("not-proved");
    const after = mended(found);
    expect(fault(after).state).toBe("mended");
    expect(issuesOf(() => record(after, act("prove")))).toContain("not-read");
    expect(stillToRead(after, fault(after))).toBe(`${first.socket}, screen; ${first.socket}, cathode`);
    const half = record(after, form({ "row 4: Measured V": "102" }));
    // what is asked for is what the proof wants, and the refusal is words alone
    expect(stillToRead(half, fault(half))).toBe(`${first.socket}, cathode`);
    expect(refusedBy(() => record(half, act("prove")))).toBe(`Not read since it was mended: ${first.socket}, cathode.`);
    expect(refusedBy(() => record(half, act("leave")))).toBe("Write the reason why it is left.");
    expect(issuesOf(() => record(half, act("prove")))).toContain(`${first.socket}, cathode read again`);
    const still = record(half, form({ "row 5: Measured V": "0.5" }));
    expect(issuesOf(() => record(still, act("prove")))).toContain("still-off");
    const whole = record(half, form({ "row 5: Measured V": "1.04" }));
    expect(stillToRead(whole, fault(whole))).toBe("");
    expect(refusedBy(() => record(whole, act("close")))).toBe("Prove it first: then it can be closed.");
    const closed = record(record(whole, act("prove")), act("close"));
    expect(fault(closed).state).toBe("closed");
    expect(faultsOf(closed).filter(isOpenFault)).toEqual([]);
  });
  it("opens again by itself when a later reading contradicts what closed it", () => {
    const closed = [act("cause", { cause: "screen resistor high" })].reduce<JobView>(
      (v, a) => record(v, a),
      record(read, act("notice", { words: "screen low" })),
    );
    const proved = record(mended(closed), form({ "row 4: Measured V": "102", "row 5: Measured V": "1.04" }));
    const done = record(record(proved, act("prove")), act("close"));
    const again = record(done, form({ "row 4: Measured V": "60" }));
    expect(fault(again)).toMatchObject({ state: "open again", cause: "screen resistor high" });
    expect(whereOf(again, stamp().at).find((l) => l.head === "Wrong")?.says).toMatch(/60 V .*open again/);
  });
  it("is left only with a reason, and one of another name may stand beside it", () => {
    const two = record(read, { kind: "fault", fault: "f1-a", does: "notice", place: "set", words: "crackles when warm", rests: [] });
    expect(faultsOf(two).map((f) => f.id)).toEqual(["f1-a", place]);
    expect(issuesOf(() => record(two, { ...act("leave"), fault: "f1-a", place: "set" }))).toContain("no-reason");
    const left = record(two, { ...act("leave"), fault: "f1-a", place: "set", words: "owner does not mind" });
    expect(orThrow(faultNamed(left, "f1-a"))).toMatchObject({ state: "left", reason: "owner does not mind" });
  });
});

describe("the rows that a chart offers", () => {
  it("are of the tubes that no row is about yet, wherever those stand", () => {
    const chartForm = formById("voltage-chart")!;
    const sockets = blank.set.tubes.map((t) => t.socket);
    const offered = (view: JobView) => offeredCells(view, chartForm).map((c) => c.split(" ")[0]);
    expect(offered(blank)).toEqual(sockets);
    const rest = sockets.filter((s) => s !== first.socket);
    // rows 3 to 5 are of the one tube; every other tube has a row of its own
    expect(offered(read).filter((_, i) => i < 2 || i > 4)).toEqual(rest);
    // a row that was begun under its tube's own name keeps it
    const begun = record(blank, form({ "row 2: Chart V": "200" }));
    expect(offered(begun)).toEqual(sockets);
  });
});

describe("mending", () => {
  it("is one act: part, value, work and the fault's step stand together, and are taken back whole", () => {
    const before = record(read, act("notice", { words: "screen low" }));
    const after = mended(before);
    expect(quantityAt(after.set, `${place}.screenFeed`)).toMatchObject({ value: 33e3, origin: "stated" });
    expect(after.steps.find((s) => s.id === "10")?.due[0].task).toBe(`Read the volts of ${first.socket} again, as left`);
    expect([...replacedIn(after)]).toContain("R15");
    expect(fault(after).parts).toHaveLength(1);
    const last = after.inForce[after.inForce.length - 1];
    const fallen = fallWith(after, last);
    expect(fallen.map((e) => e.kind).sort()).toEqual(["fault", "part", "values", "work"]);
    const back = record(after, ...fallen.map((e) => ({ kind: "correction", supersedes: e.id, why: "wrong stage" })));
    expect(back.set).toEqual(before.set);
    expect(back.steps).toEqual(before.steps);
    expect(fault(back).state).toBe("noticed");
  });
  it("keeps what was measured of the old part, and takes a marked value for what marks are worth", () => {
    const part = mending(read, said({ came: { is: "33k", measured: "", rated: "" } }), stamp()).entries.find((e) => e.kind === "part");
    expect(part).toMatchObject({
      out: { value: { value: 33e3 }, measured: { value: 79e3, origin: "measured" } },
      came: { value: { value: 33e3, spread: { shape: "rectangular" } } },
    });
  });
  it("names each field that it can't take", () => {
    const wrong = said({ out: { is: "33 volts", measured: "", rated: "" }, came: { is: "33k", measured: "-2", rated: "x" } });
    expect(issuesOf(() => mending(read, wrong, stamp()))).toMatch(/--out .*--in-measured .*--in-rated /);
    expect(issuesOf(() => mending(read, said({ part: "tube", place: "supplies" }), stamp()))).toContain("no-place --at");
    const bare = said({ part: "coupling-capacitor", came: { is: "22 nF", measured: "", rated: "" }, out: nothing });
    expect(issuesOf(() => mending(read, bare, stamp()))).toContain("not-said --in-rated");
  });
  it("changes what rectifies, the type in a socket, the capacitor at the line", () => {
    const silicon = mended(read, {
      part: "rectifier",
      place: "",
      label: "",
      out: { ...nothing, is: "5Y3" },
      came: { ...nothing, is: "1N4007" },
      fault: "",
    });
    expect(silicon.set.supplies.choices?.rectifierType).toBe("silicon");
    expect(silicon.steps.find((s) => s.id === "08")?.due.length).toBeGreaterThan(0);
    const type = mended(read, {
      part: "tube",
      label: first.socket,
      out: { ...nothing, is: first.type },
      came: { ...nothing, is: "6BJ6" },
      fault: "",
    });
    expect(type.set.tubes.find((t) => t.socket === first.socket)?.type).toBe("6BJ6");
    const out = mended(read, {
      part: "line-capacitor",
      place: "line",
      label: "C60",
      out: { ...nothing, is: "10 nF" },
      came: nothing,
      fault: "",
    });
    expect(out.set.topics?.safety).toMatchObject({ choices: { bypassClass: "none fitted" }, values: { bypass: { value: 0 } } });
  });
  it("has for every kind of part works that exist, and addresses that exist", () => {
    for (const k of partKinds) {
      const works = [...blank.set.stages.map((s) => s.kind), undefined].map((s) => (typeof k.work === "string" ? k.work : k.work(s)));
      for (const w of works) expect(workKindById(w), `${k.id}: ${w}`).toBeDefined();
      if (k.follows) expect(addressAt(k.follows.replace("*", first.stage)), k.id).toMatchObject({ dimension: k.value });
    }
  });
});

describe("found and left", () => {
  it("are told apart by the work between them, each with its meter and line", () => {
    const after = record(mended(read, { fault: "" }), form({ "row 4: Measured V": "102", "Line volts": "121" }));
    const line = (point: string) => foundAndLeftOf(after).find((l) => l.figure === `${first.socket}, ${point}`);
    expect(line("screen")).toMatchObject({ chart: "100 V", found: "64 V", left: "102 V", says: "Now as it should be." });
    expect(line("screen")?.conditions).toMatch(/line 117 V.*\/ line 121 V/);
    expect(line("plate")).toMatchObject({ found: "238 V", left: "", refused: true });
    expect(foundAndLeftOf(after).find((l) => l.figure === "Screen resistor R15")?.found).toMatch(/33 kΩ marked, 79 kΩ measured/);
  });
  it("a figure mended before any work is still as found", () => {
    const again = record(read, form({ "row 4: Measured V": "65" }));
    expect(foundAndLeftOf(again).find((l) => l.figure === `${first.socket}, screen`)).toMatchObject({ found: "65 V", left: "" });
  });
});

describe("what is read again after work", () => {
  it("is what the work can have changed: its own tube; all after work on the supply or at the output", () => {
    const again = (view: JobView) => [...readAgain(view, "voltage-chart")];
    const other = blank.set.tubes.find((t) => t.stage !== first.stage)!;
    const both = record(read, form({ "row 9: Tube": other.socket, "row 9: Electrode": "plate", "row 9: Measured V": "230" }));
    expect(again(both)).toEqual([]);
    const rows = [3, 4, 5].map((n) => `row ${n}: Measured V`);
    const after = mended(both, { fault: "" });
    expect(again(after)).toEqual(rows);
    expect(again(record(after, form({ "row 4: Measured V": "102" })))).toEqual([rows[0], rows[2]]);
    const filter = {
      part: "first-filter-capacitor",
      place: "supplies",
      came: { is: "47 uF", measured: "", rated: "450 V" },
      out: nothing,
      label: "",
    };
    expect(again(mended(both, { ...filter, fault: "" }))).toEqual([...rows, "row 9: Measured V"]);
    // on its card each of them says so, until it is typed again
    const card = formById("voltage-chart")!;
    const old = judgedCells(after, card, { [rows[1]]: "102" });
    expect(rows.map((r) => old.get(r)?.verdict)).toEqual(["open", "sound", "open"]);
    expect(old.get(rows[0])?.says).toBe("older than the work done since (resistor replaced): read it again");
    // readings down the column go to those, in order
    expect(orThrow(readDown(after, "voltage-chart", "238 102 -"))).toEqual({ [rows[0]]: "238", [rows[1]]: "102" });
    expect(readDown(after, "voltage-chart", "1 2 3 4")).toMatchObject({ ok: false, issues: [{ code: "too-many" }] });
    // and what work can't have changed is not called old
    expect(foundAndLeftOf(after).find((l) => l.figure.startsWith(`${other.socket}, plate`))?.refused).toBe(false);
  });
});

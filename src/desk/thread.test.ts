import { describe, expect, it } from "vitest";
import { admit } from "../job/admit";
import type { Entry } from "../job/document";
import { faultNamed, faultsOf, isOpenFault } from "../job/faults/faults";
import { formatVersion } from "../job/format";
import { partKinds } from "../job/mending/kinds";
import { workKindById } from "../job/ripple";
import { readAgain } from "../job/rollups/again";
import { foundAndLeftOf } from "../job/rollups/chart-lines";
import { replacedIn } from "../job/rollups/parts";
import { whereOf } from "../job/rollups/where";
import { carriedOnto, satDown, signerOf, sittingAt, waitingFor } from "../job/sitting";
import { fallWith, type JobView, viewOf } from "../job/view";
import { addressAt } from "../set/addresses";
import { quantityAt } from "../set/paths";
import { patterns } from "../set/patterns/kinds";
import { InputError, orThrow } from "../units/issue";
import { readDown, signing } from "./fill-down";
import { type MendSaid, mending } from "./mend";

/** An invented job whose first IF stage has a chart and low screen volts. */
let clock = 0;
const stamp = () => ({ at: new Date(Date.UTC(2026, 0, 2) + 60e3 * ++clock).toISOString(), who: "t", newId: () => `e${++clock}` });
const blank = viewOf({
  format: "fettle-job",
  version: formatVersion,
  id: "j",
  name: "j",
  created: "2026-01-01T00:00:00Z",
  set: patterns[0],
  entries: [],
});
const first = blank.set.tubes.find((t) => blank.set.stages.find((s) => s.id === t.stage)?.kind === "if-tube")!;
const place = `stages.${first.stage}`;
const chart = {
  "Line volts": "117",
  Meter: "digital",
  "Chart's meter and line": "20 kΩ/V, 117 V",
  ...Object.fromEntries(
    [
      ["plate", "225", "2200", "238"],
      ["screen", "100", "30k", "64"],
      ["cathode", "1.05", "68", "0.56"],
    ].flatMap(([electrode, chartV, ohm, measured], i) => [
      [`row ${i + 3}: Tube`, first.socket],
      [`row ${i + 3}: Electrode`, electrode],
      [`row ${i + 3}: Chart V`, chartV],
      [`row ${i + 3}: Source Ω if known`, ohm],
      [`row ${i + 3}: Measured V`, measured],
    ]),
  ),
};
/** Records as every face does: through the gate, with what the sitting carries on. */
const record = (view: JobView, ...entries: readonly Record<string, unknown>[]): JobView => {
  const { at, who, newId } = stamp();
  const made = entries.map((e) => ({ at, who, id: newId(), ...e }));
  return viewOf({ ...view.document, entries: [...view.document.entries, ...orThrow(admit(view, made)).map((e) => carriedOnto(view, e))] });
};
const form = (fields: Readonly<Record<string, string>>) => ({ kind: "form", form: "voltage-chart", fields });
const act = (does: string, more: object = {}) => ({ kind: "fault", fault: place, does, place, words: "", rests: [], ...more });
const nothing = { is: "", measured: "", rated: "" };
const said = (more: Partial<MendSaid> = {}): MendSaid => ({
  part: "screen-resistor",
  place,
  label: "R15",
  out: { is: "33k", measured: "79k", rated: "" },
  came: { is: "33k ±5%", measured: "", rated: "" },
  dress: "short, away from the can",
  fault: place,
  note: "",
  now: {},
  ...more,
});
const mended = (view: JobView, more: Partial<MendSaid> = {}): JobView => {
  const plan = mending(view, said(more), stamp());
  return viewOf({ ...view.document, entries: [...view.document.entries, ...orThrow(admit(view, plan.entries))] });
};
const read = record(blank, form(chart));
const fault = (view: JobView) => orThrow(faultNamed(view, place));
const issuesOf = (work: () => unknown): string => {
  try {
    work();
  } catch (e) {
    if (e instanceof InputError) return e.issues.map((i) => `${i.code} ${i.path} ${i.expected}`).join("; ");
    throw e;
  }
  return "";
};

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
    const half = record(after, form({ "row 4: Measured V": "102" }));
    expect(issuesOf(() => record(half, act("prove")))).toContain(`${first.socket}, cathode read again`);
    const still = record(half, form({ "row 5: Measured V": "0.5" }));
    expect(issuesOf(() => record(still, act("prove")))).toContain("still-off");
    const whole = record(half, form({ "row 5: Measured V": "1.04" }));
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
    expect(foundAndLeftOf(after).find((l) => l.figure === "Screen resistor R15")?.found).toMatch(/33 kΩ .*marked, 79 kΩ .*measured/);
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
    // readings down the column go to those, in order
    expect(orThrow(readDown(after, "voltage-chart", "238 102 -"))).toEqual({ [rows[0]]: "238", [rows[1]]: "102" });
    expect(readDown(after, "voltage-chart", "1 2 3 4")).toMatchObject({ ok: false, issues: [{ code: "too-many" }] });
    // and what work can't have changed is not called old
    expect(foundAndLeftOf(after).find((l) => l.figure.startsWith(`${other.socket}, plate`))?.refused).toBe(false);
  });
});

describe("sitting down and getting up", () => {
  it("carries meter and line to what is read in the session, unless it is said otherwise", () => {
    const sat = record(blank, {
      kind: "sitting",
      initials: "JM",
      meter: "20 kΩ/V",
      method: "",
      line: { value: 121, spread: { shape: "exact" }, origin: "measured", source: "" },
    });
    const wrote = record(sat, form({ "row 3: Tube": first.socket, "row 3: Measured V": "238" }));
    const last = wrote.inForce[wrote.inForce.length - 1];
    expect(last).toMatchObject({ fields: { Meter: "20 kΩ/V", "Line volts": "121 V" } });
    expect(signerOf(wrote, last)).toBe("JM");
    // who, when, meter, method, warm or cold stand beside each reading of the one table
    const full = record(blank, { kind: "sitting", initials: "KL", meter: "20 kΩ/V", method: "no signal", thermal: "cold" });
    const [one] = foundAndLeftOf(
      record(full, form({ "row 3: Tube": first.socket, "row 3: Electrode": "plate", "row 3: Measured V": "238" })),
    );
    expect(one).toMatchObject({ method: "20 kΩ/V, no signal", conditions: "cold, KL, 2026-01-02" });
    const other = record(wrote, form({ "row 3: Measured V": "236", Meter: "digital" }));
    const third = record(other, form({ "row 3: Measured V": "235" }));
    expect(third.inForce[third.inForce.length - 1]).toMatchObject({ fields: { "row 3: Measured V": "235" } });
    expect(Object.keys((third.inForce[third.inForce.length - 1] as { fields: object }).fields)).toEqual(["row 3: Measured V"]);
  });
  it("carries the meter for grids and the lowest range that holds the reading, none that is said, and to no other meter", () => {
    const sat = record(blank, {
      kind: "sitting",
      initials: "JM",
      meter: "20 kΩ/V, ranges 2.5 10 50 250",
      gridMeter: "11 MΩ",
      method: "",
    });
    const row = (n: number, electrode: string, volts: string, more: Readonly<Record<string, string>> = {}) =>
      form({ [`row ${n}: Tube`]: first.socket, [`row ${n}: Electrode`]: electrode, [`row ${n}: Measured V`]: volts, ...more });
    const fieldsOf = (view: JobView) => (view.inForce[view.inForce.length - 1] as { fields: Record<string, string> }).fields;
    expect(fieldsOf(record(sat, row(3, "plate", "238")))).toMatchObject({
      "row 3: Range V": "250",
      Meter: "20 kΩ/V, ranges 2.5 10 50 250",
    });
    // a needle at its stop is not read
    expect(fieldsOf(record(sat, row(3, "cathode", "2.5")))).toMatchObject({ "row 3: Range V": "10" });
    const grid = fieldsOf(record(sat, row(4, "grid", "-0.4")));
    expect(grid).toMatchObject({ "row 4: Meter": "11 MΩ" });
    expect(grid["row 4: Range V"]).toBeUndefined();
    expect(fieldsOf(record(sat, row(3, "plate", "238", { "row 3: Range V": "1000" })))["row 3: Range V"]).toBe("1000");
    expect(fieldsOf(record(sat, row(3, "plate", "238", { Meter: "digital" })))["row 3: Range V"]).toBeUndefined();
    expect(fieldsOf(record(sat, row(3, "plate", "900")))["row 3: Range V"]).toBeUndefined();
  });
  it("takes who and with what from the session before, never warm or cold nor the line", () => {
    const line = { value: 121, spread: { shape: "exact" as const }, origin: "measured" as const, source: "" };
    const sat = record(blank, {
      kind: "sitting",
      initials: "JM",
      meter: "20 kΩ/V",
      gridMeter: "11 MΩ",
      method: "x",
      thermal: "warm",
      line,
    });
    const said = { initials: "", meter: "", method: "" };
    expect(orThrow(satDown(sat, "t", said))).toEqual({ initials: "JM", meter: "20 kΩ/V", gridMeter: "11 MΩ", method: "" });
    expect(satDown(blank, "t", said)).toMatchObject({ ok: false, issues: [{ path: "--initials" }] });
    expect(satDown(sat, "another", said).ok).toBe(false);
  });
  it("signs a card only when asked, by whoever sits there, and carries the name of the tester but no reading", () => {
    expect(signing(blank, "safety-out", stamp().at)).toMatchObject({ ok: false, issues: [{ code: "nobody-sits" }] });
    const sat = record(blank, { kind: "sitting", initials: "JM", meter: "", method: "" });
    const came = record(sat, { kind: "form", form: "safety-in", fields: { "Tester used": "bridge tester", "Bond, Ω": "0.05" } });
    const signed = orThrow(signing(came, "safety-out", stamp().at));
    expect(signed).toEqual({ "Date and sign": "2026-01-02, JM", "Tester used": "bridge tester" });
    expect(signing(came, "voltage-chart", stamp().at).ok).toBe(false);
    const wrote = record(came, { kind: "form", form: "safety-out", fields: { "Bond, Ω": "0.05" } });
    expect(Object.keys((wrote.inForce[wrote.inForce.length - 1] as { fields: object }).fields)).toEqual(["Bond, Ω"]);
  });
  it("says in six lines how the set stands, with the care of the next step", () => {
    const left = record(read, {
      kind: "standing",
      power: "unplugged",
      case: "open",
      clipped: "one end of C14 lifted",
      doing: "tracing the leak",
    });
    const waits = record(left, { kind: "waiting", for: "22 µF", until: "2030-01-01T00:00:00Z", about: "05" });
    const lines = whereOf(waits, stamp().at);
    expect(lines.map((l) => l.head)).toEqual(["The set", "Last", "Wrong", "Waiting", "Next", "Care"]);
    expect(lines[0].says).toMatch(/unplugged, case open; clipped on or lifted: one end of C14 lifted.*Chassis LIVE/);
    expect(lines[1].says).toContain("tracing the leak");
    expect(lines[3].says).toContain("22 µF");
    const wait = waits.inForce.find((e) => e.kind === "waiting") as Entry;
    const over = record(waits, { kind: "waiting", for: "22 µF", about: "05", ends: wait.id });
    expect(waitingFor(over, stamp().at)).toEqual([]);
    expect(waitingFor(waits, "2031-01-01T00:00:00Z")).toEqual([]);
  });
  it("tells after a week what holds no longer: warm-up, soak, charge, meter and line; and what has had its time", () => {
    const sat = record(read, { kind: "sitting", initials: "JM", meter: "20 kΩ/V", method: "", thermal: "warm" });
    const standing = {
      kind: "standing",
      power: "off",
      case: "open",
      clipped: "C14 lifted, clip on the first capacitor",
      doing: "tracing the leak",
    };
    const soak = record(sat, { kind: "waiting", for: "a soak of 4 h", until: "2026-01-02T12:00:00Z", about: "34" });
    const part = record(soak, { kind: "waiting", for: "22 µF from the post", until: "2026-02-12T00:00:00Z", about: "05" });
    const left = record(part, standing);
    const week = (hours: number) => new Date(Date.parse(left.inForce[left.inForce.length - 1].at) + 3.6e6 * hours).toISOString();
    const soon = whereOf(left, week(1)).map((l) => l.says);
    const later = whereOf(left, week(7 * 24)).map((l) => l.says);
    expect(soon[0]).not.toMatch(/ago/);
    expect(soon[5]).not.toMatch(/proves nothing now/);
    expect(later).toHaveLength(6);
    expect(later[0]).toMatch(
      /^7 days ago: no warm-up or soak counts.*meter, line, warm or cold are asked again.*switched off, plugged in, case open; .*C14 lifted/,
    );
    expect(later[1]).toContain("Was doing: tracing the leak");
    expect(later[2]).toMatch(/screen is low/);
    expect(later[3]).toMatch(/soak of 4 h was due 2026-01-02 12:00: has it come\?.*begins anew.*22 µF from the post, until 2026-02-12/);
    expect(later[5]).toMatch(/^Unplug the set, discharge its capacitors and MEASURE them again/);
    expect(sittingAt(left, week(7 * 24))).toBeUndefined();
    // and what is read then carries nothing of that session
    const at = week(7 * 24);
    const e = carriedOnto(left, { id: "x", at, who: "t", ...form({ "row 3: Measured V": "238" }) } as Entry);
    expect(e).toMatchObject({ fields: { "row 3: Measured V": "238" } });
    expect(Object.keys((e as { fields: object }).fields)).toHaveLength(1);
    const on = record(left, { ...standing, power: "on" });
    expect(whereOf(on, week(7 * 24))[0].says).toContain("It was left ON");
  });
});

import { describe, expect, it } from "vitest";
import type { Entry } from "../job/document";
import { foundAndLeftOf } from "../job/rollups/chart-lines";
import { whereOf } from "../job/rollups/where";
import { carriedOnto, satDown, signerOf, sittingAt, waitingFor } from "../job/sitting";
import type { JobView } from "../job/view";
import { orThrow } from "../units/issue";
import { signing } from "./fill-down";
import { blank, first, form, read, record, stamp } from "./thread.testdata";

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
    expect(one).toMatchObject({ method: "20 kΩ/V, no signal", conditions: "cold, KL, 2 January 2026" });
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
    // weeks later, or after sitting down anew, it is said again
    const anew = record(came, { kind: "sitting", initials: "JM", meter: "", method: "" });
    expect(Object.keys(orThrow(signing(anew, "safety-out", stamp().at)))).toEqual(["Date and sign"]);
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
      /^Last at it 7 days ago: no warm-up or soak counts.*meter, line, warm or cold are asked again.*switched off, plugged in, case open; .*C14 lifted/,
    );
    expect(later[1]).toContain("Was doing: tracing the leak");
    expect(later[2]).toMatch(/screen is low/);
    expect(later[3]).toMatch(
      /soak of 4 h was due 2 January 2026, 12:00: has it come\?.*begins anew.*22 µF from the post, until 12 February 2026/,
    );
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

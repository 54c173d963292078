import { describe, expect, it } from "vitest";
import { patterns } from "../../../set/patterns/kinds";
import type { Entry } from "../../document";
import { formatVersion } from "../../format";
import { comingIn } from "../../proved.testdata";
import { type JobView, viewOf } from "../../view";
import { worthOf } from "./worth";

const now = "2026-03-01T18:00:00Z";
let count = 0;
const head = () => ({ id: `s${++count}`, at: "2026-03-01T12:00:00Z", who: "t" });
const entry = (more: object): Entry => ({ ...head(), ...more }) as Entry;
const set = patterns[1];
const rectifier = set.tubes.find((t) => t.function === "rectifier")!.socket;
/** A job whose chart gives 320 V at the rectifier, with so much read there. */
const readAs = (volts: string, ...more: readonly Entry[]): JobView =>
  viewOf({
    format: "fettle-job",
    version: formatVersion,
    id: "j",
    name: "j",
    created: "2026-01-01T00:00:00Z",
    set,
    entries: [
      ...comingIn(head),
      ...["01", "02", "03", "04", "05", "06", "07", "11", "08"].map((step) => entry({ kind: "done", step, note: "" })),
      entry({
        kind: "form",
        form: "voltage-chart",
        fields: {
          "Line volts": "117",
          Meter: "digital",
          "Chart's meter and line": "20 kΩ/V, 117 V",
          "row 1: Tube": rectifier,
          "row 1: Electrode": "B+",
          "row 1: Chart V": "320",
          "row 1: Measured V": volts,
        },
      }),
      ...more,
    ],
  });
const made = (row: object) => entry({ kind: "rows", path: "supplies.tests", rows: [row], why: "" });
const ofSupply = (view: JobView) => {
  const w = worthOf(view, now);
  return { stop: w.stop, choices: w.choices.filter((c) => c.place === "supply") };
};
const ids = (view: JobView): readonly string[] => ofSupply(view).choices.map((c) => c.id);

describe("a B+ that is low", () => {
  it("says to switch off first, and offers nothing that puts the set on, or a new rectifier in, before ohms were taken cold", () => {
    const { stop, choices } = ofSupply(readAs("205"));
    expect(stop.join()).toMatch(/^Switch off: B\+ is 205 V where about (?:29|30)\d V is expected/);
    expect(choices[0].id).toBe("test:supplies:first-ohm");
    for (const c of choices) {
      expect(c.wants, c.id).toBe("open-dead");
      expect(c.cautions.length, c.id).toBeGreaterThan(0);
    }
    expect(choices[0].why).toMatch(/^removes \d+ % of the uncertainty about the cause.* if .*, .* if /);
  });
  it("asks for the ripple and the rest once there is no leak, and for the capacitor's mend once that was measured", () => {
    const clear = readAs("205", made({ test: "first-ohm", ohm: 51.75e3 }));
    expect(ofSupply(clear).stop).toEqual([]);
    expect(ids(clear)).toContain("test:supplies:ripple");
    expect(ids(clear)).not.toContain("test:supplies:first-ohm");
    const tests = [
      { test: "first-ohm", ohm: 51.75e3 },
      { test: "first-farad", farad: 4e-8 },
    ];
    const both = readAs("205", entry({ kind: "rows", path: "supplies.tests", rows: tests, why: "" }));
    expect(ids(both)).toContain("mend:supplies:filterCapacitor");
  });
  it("takes the choke and the bleeder for causes as well, and forgets the tests once a part was changed there", () => {
    const high = ofSupply(readAs("405", made({ test: "first-ohm", ohm: 2e8 }))).choices;
    expect(high.map((c) => `${c.does} ${c.why}`).join()).toMatch(/choke/);
    const part = { kind: "", words: "", dress: "" };
    const changed = readAs(
      "205",
      made({ test: "first-ohm", ohm: 51.75e3 }),
      entry({ kind: "part", part: "rectifier", place: "supplies", label: "", out: part, came: part }),
    );
    expect(ids(changed)).toContain("test:supplies:first-ohm");
  });
});

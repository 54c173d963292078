import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dialCases, inventDial } from "../../../infer/dial/possible-dials";
import { minutesAt } from "../../../set/addresses/minutes";
import { patterns } from "../../../set/patterns/kinds";
import { isOpen } from "../../../standards/cautions";
import { exact } from "../../../units/quantity";
import { type Entry, readingSchema } from "../../document";
import { formatVersion } from "../../format";
import { comingIn } from "../../proved.testdata";
import { concerns, safetyBefore, stepById, steps } from "../../steps";
import { type JobView, viewOf } from "../../view";
import { leftOutText } from "./words";
import { type Asking, worthOf } from "./worth";

const now = "2026-03-01T18:00:00Z";
let count = 0;
const head = () => ({ id: `e${++count}`, at: "2026-03-01T12:00:00Z", who: "t" });
const entry = (more: object): Entry => ({ ...head(), ...more }) as Entry;
const jobOf = (...entries: readonly Entry[]): JobView =>
  viewOf({
    format: "fettle-job",
    version: formatVersion,
    id: "j",
    name: "j",
    created: "2026-01-01T00:00:00Z",
    set: patterns[1],
    entries: [...entries],
  });
const more = (view: JobView, ...entries: readonly Entry[]): JobView =>
  viewOf({ ...view.document, entries: [...view.document.entries, ...entries] });
const done = (...ids: readonly string[]): Entry[] => ids.map((step) => entry({ kind: "done", step, note: "" }));
const safety = comingIn(head);
const tube = patterns[1].tubes.find((t) => patterns[1].stages.find((s) => s.id === t.stage)?.kind === "if-tube")!;
const place = `stages.${tube.stage}`;
/** First IF stage with a screen far down, by its resistor or its bypass. */
const lowScreen = entry({
  kind: "form",
  form: "voltage-chart",
  fields: {
    "Line volts": "117",
    Meter: "digital",
    "Chart's meter and line": "20 kΩ/V, 117 V",
    ...Object.fromEntries(
      [
        ["plate", "225", "2200", "238"],
        ["screen", "100", "30k", "50"],
        ["cathode", "1.05", "68", "0.42"],
      ].flatMap(([electrode, chartV, ohm, measured], i) => [
        [`row ${i + 1}: Tube`, tube.socket],
        [`row ${i + 1}: Electrode`, electrode],
        [`row ${i + 1}: Chart V`, chartV],
        [`row ${i + 1}: Source Ω if known`, ohm],
        [`row ${i + 1}: Measured V`, measured],
      ]),
    ),
  },
});
const toPower = ["01", "02", "03", "04", "05", "06", "07", "11", "08", "09"] as const;
const traced = more(jobOf(...safety), ...done(...toPower), lowScreen);
const ask = (view: JobView, asking: Asking = {}) => worthOf(view, now, asking);
const named = (view: JobView, id: string, asking: Asking = {}) => ask(view, asking).choices.find((c) => c.id === id);

describe("safety", () => {
  it("comes first in a job where nothing is done, and nothing that wants the set is weighed against it", () => {
    const w = ask(jobOf(lowScreen));
    expect(w.first.map((i) => i.step)).toEqual(["02"]);
    expect(w.first[0].cautions.length).toBeGreaterThan(0);
    for (const c of w.choices) expect(c.wants, c.does).toBe("desk");
    expect(w.leftOut.safety).toBeGreaterThan(0);
  });
  it("is never in the trade, whatever was said to be proved", () => {
    fc.assert(
      fc.property(fc.subarray(steps.map((s) => s.id)), fc.boolean(), (ids, signed) => {
        const view = more(jobOf(...(signed ? safety : [])), ...done(...ids), lowScreen);
        const proved = (id: string) => view.steps.find((s) => s.id === id)?.state === "proven";
        const w = ask(view);
        for (const c of w.choices) {
          const step = c.kind === "step" ? stepById(c.about) : undefined;
          expect(step?.safety ?? false, c.id).toBe(false);
          const wanted = step
            ? safetyBefore(step.id)
            : c.wants === "desk"
              ? []
              : c.wants === "open-dead"
                ? ["02", "03"]
                : ["02", "03", "04", "08"];
          for (const s of wanted) expect(proved(s), `${c.id} before ${s}`).toBe(true);
          if (isOpen(c.wants)) expect(c.cautions.length, c.id).toBeGreaterThan(0);
        }
        const open = steps.filter((s) => s.safety && !proved(s.id) && concerns(s.id, view.set));
        for (const i of w.first) expect(open.map((s) => s.id)).toContain(i.step);
      }),
      { numRuns: 8 },
    );
  });
  it("says to switch off before all else where a grid stands positive", () => {
    const grid = entry({
      kind: "form",
      form: "voltage-chart",
      fields: { "row 4: Tube": tube.socket, "row 4: Electrode": "grid", "row 4: Chart V": "0", "row 4: Measured V": "7" },
    });
    expect(ask(traced).stop).toEqual([]);
    const cathode = entry({ kind: "form", form: "voltage-chart", fields: { "row 3: Measured V": "2.9", "row 2: Measured V": "70" } });
    expect(ask(more(traced, grid, cathode)).stop.join()).toMatch(/^Switch off: the grid at .* 7 V/);
  });
});

describe("a tie between causes", () => {
  it("is weighed by what each test tells, with what it should read by each", () => {
    const c = named(traced, `test:${place}:screen-ohm`)!;
    expect(c.removes[0].share).toBeGreaterThan(0.3);
    expect(c.why).toMatch(/^removes \d+ % of the uncertainty about the cause.*: [\d.]+ kΩ if .*, [\d.]+ kΩ if /);
    expect(c.cost.turns).toEqual(["open the set", "switch off, unplug, discharge, measure"]);
    expect(c.anHour).toBeCloseTo((60 * c.removes[0].share) / c.cost.minutes, 9);
  });
  it("falls to a mend once the test is recorded, and stands again once a part was changed and the readings still say so", () => {
    const told = more(traced, entry({ kind: "rows", path: `${place}.tests`, rows: [{ test: "screen-ohm", ohm: 30e3 }], why: "" }));
    const w = ask(told);
    expect(w.choices.find((c) => c.id === `test:${place}:screen-ohm`)).toBeUndefined();
    expect(w.choices.find((c) => c.kind === "mend")?.id).toBe(`mend:${place}:screenBypass`);
    const part = { kind: "ceramic", words: "", dress: "" };
    const changed = more(told, entry({ kind: "part", part: "screen-bypass", place, label: "C1", out: part, came: part }));
    expect(named(changed, `test:${place}:screen-ohm`)).toBeDefined();
  });
});

describe("time and the case", () => {
  it("half an hour and a closed case leave only what fits both", () => {
    const w = ask(traced, { minutes: 30, closed: true });
    for (const c of w.choices) {
      expect(isOpen(c.wants), c.id).toBe(false);
      expect(c.cost.minutes, c.id).toBeLessThanOrEqual(30);
    }
    expect(w.leftOut.open).toBeGreaterThan(0);
    expect(w.choices.length + w.leftOut.open + w.leftOut.long).toBe(ask(traced).choices.length);
  });
  it("what is left out is told in the singular where it is one", () => {
    const said = (open: number, long: number): string => leftOutText({ ...ask(traced), leftOut: { safety: 0, open, long } });
    expect(said(1, 1)).toBe("Left out: 1 needs the set open, 1 takes longer.");
    expect(said(2, 3)).toBe("Left out: 2 need the set open, 3 take longer.");
  });
  it("opening and making safe are not counted again on a set that was left open, unplugged", () => {
    const standing = entry({ kind: "standing", power: "unplugged", case: "open", clipped: "", doing: "" });
    const id = `test:${place}:screen-ohm`;
    expect(named(more(traced, standing), id)!.cost.turns).toEqual([]);
    expect(named(more(traced, standing), id)!.cost.minutes).toBeLessThan(named(traced, id)!.cost.minutes);
  });
  it("goes by the person's own minutes, where they are stored", () => {
    const value = { value: 3600, spread: exact, origin: "stated" as const, source: "" };
    const slow = more(traced, entry({ kind: "values", values: { [minutesAt("test", "screen-ohm")]: value }, why: "" }));
    expect(named(slow, `test:${place}:screen-ohm`)!.cost.hands[0]).toBe(60 + named(traced, `test:${place}:screen-ohm`)!.cost.hands[0] - 6);
  });
});

describe("waiting", () => {
  it("holds what waits for it, and says until when", () => {
    const fault = entry({ kind: "fault", fault: "f1", does: "notice", place, words: "screen low", rests: [] });
    const wait = entry({ kind: "waiting", for: "33 kΩ, 1 W from the post", until: "2026-03-05T00:00:00Z", about: "f1" });
    const view = more(traced, fault);
    expect(ask(view).choices.some((c) => c.about === "f1")).toBe(true);
    const w = ask(more(view, wait));
    expect(w.choices.some((c) => c.about === "f1")).toBe(false);
    expect(w.waiting[0]).toMatchObject({ for: "33 kΩ, 1 W from the post", until: "2026-03-05T00:00:00Z" });
    expect(w.waiting[0].holds.length).toBeGreaterThan(0);
    expect(worthOf(more(view, wait), "2026-03-06T00:00:00Z").choices.some((c) => c.about === "f1")).toBe(true);
  });
  it("a warm-up that runs leaves its rest to wait, and a warm set none", () => {
    const warming = entry({ kind: "waiting", for: "warm-up", until: "2026-03-01T18:12:00Z", about: "17" });
    const view = more(beaten, ...done("10"));
    const beat = (v: JobView, asking: Asking = {}) => ask(v, asking).choices.find((c) => c.kind === "beat")!.cost.itself;
    expect(beat(more(view, warming))).toEqual([12, 12]);
    expect(beat(view)).toEqual([30, 60]);
    expect(beat(view, { warm: true })).toEqual([0, 0]);
  });
});

/** The same with five zero beats on the first band, whose edges are the owner's own. */
const band = patterns[1].bands[0];
const dial = inventDial({ ...dialCases[0], lowHz: band.low.value, highHz: band.high.value }, 3);
const beats = dial.points.filter((_, i) => i % 3 === 0);
const quantity = (value: number) => ({ value, spread: exact, origin: "stated" as const, source: "" });
const reading = entry({
  kind: "reading",
  reading: readingSchema.parse({
    ...{ id: "r1", as: "dial", state: "as-left", step: "33g", stage: "", instrument: "", thermal: "warm", band: band.id, setPoint: "" },
    ...{ file: { name: "", hash: "" }, figures: [], warnings: [] },
    columns: {
      reading: beats.map((p) => p.reading),
      frequencyHz: beats.map((p) => p.frequencyHz),
      approach: beats.map((p) => p.approach),
    },
  }),
});
const own = entry({ kind: "fact", path: "place.licence", value: "own", why: "" });
const ends = entry({
  kind: "values",
  values: { [`bands.${band.id}.lowEdge`]: quantity(beats[1].frequencyHz), [`bands.${band.id}.highEdge`]: quantity(beats[3].frequencyHz) },
  why: "",
});
const beaten = more(traced, reading, own, ends);

describe("a band edge", () => {
  it("is worth a beat, told as the room that settings must keep before and after it", () => {
    const c = ask(beaten).choices.find((x) => x.kind === "beat")!;
    const [, nowHz, afterHz] = /keep ([\d.]+) k?Hz from the (?:lower|upper) edge now, about ([\d.]+) k?Hz after/.exec(c.why)!;
    expect(Number(afterHz)).toBeLessThan(Number(nowHz));
    expect(c.wants).toBe("panel");
  });
  it("is asked for at the desk while nobody has said whose edges count", () => {
    const c = ask(more(traced, reading)).choices.find((x) => x.kind === "state")!;
    expect(c.id).toBe("state:place.region");
    expect(c.wants).toBe("desk");
  });
});

describe("the remaining work", () => {
  it("is the steps' own ranges, added as values that are half together, and falls as steps are proved", () => {
    const all = steps.filter((s) => concerns(s.id, patterns[1])).map((s) => s.id);
    const left = more(jobOf(...safety), ...done(...all.filter((s) => s !== "36" && s !== "33b")));
    const r = ask(left).remaining;
    expect(r.steps).toBeGreaterThanOrEqual(2);
    expect(r.range[0]).toBeLessThan(r.hands);
    expect(r.range[1]).toBeGreaterThan(r.hands);
    expect(ask(jobOf()).remaining.hands).toBeGreaterThan(ask(traced).remaining.hands);
    expect(ask(traced).remaining.faults).toBeGreaterThan(0);
  });
});

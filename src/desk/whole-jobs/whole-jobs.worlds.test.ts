import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { canRead, expectPapers } from "../../faces/report/paper.testdata";
import { faultNamed, faultsOf, isOpenFault } from "../../job/faults/faults";
import { proofIssues } from "../../job/next";
import { ownersReportOf } from "../../job/rollups/owner/owner";
import { recordIssues } from "../../job/safety-record";
import { planWork } from "../../job/works";
import { sheetById } from "../../sheets/index";
import { orThrow } from "../../units/issue";
import { ask } from "../actions";
import { besideOf, readAccessory, readDial, readDrift } from "./beside.testdata";
import { accessoryHeld, driftHeld, type Held, stripHeld } from "./held.testdata";
import { atSupply, known, mend, ofStages, ofSupply, placeOf } from "./mended.testdata";
import { begin, count, type Played, put, readChart, readSafety, readSweep, sitAgain, sitDown, stamp, testsOf } from "./played.testdata";
import { bandId, type World } from "./world.testdata";

/**
 * Whole jobs on invented sets with known faults, played by script. Their readings come from models in scientific Python (samples/worlds: nodal analysis,
 * tube laws and a supply integrated in time, other laws than the questions'), written by somebody who had not seen this code.
 */
const ids = [
  "eight-tube-230v-q-multiplier",
  "ten-tube-117v-marker",
  "seven-tube-120v-converter",
  "five-tube-220v-live-chassis",
  "nine-tube-230v-plain",
] as const;
const worldOf = (id: string): World =>
  JSON.parse(readFileSync(new URL(`../../../samples/worlds/jobs/${id}.json`, import.meta.url), "utf8"));
const few = { draws: 400, points: 11 };

const act = (f: string, place: string, does: string) => ({ kind: "fault", fault: f, does, place, words: "", rests: [] });
const onStage = (job: Played, place: string, tests?: string) =>
  ask(sheetById("suspects")!, job.view, place, { ...few, ...(tests ? { overrides: { tests } } : {}) });
const done = (step: string) => ({ kind: "done", step, note: "" });

/** Figures with their interval that the job states, beside what is true of the set. */
const held: Held[] = [];
const antennaOnCard = {
  "row 1: Part": "C1",
  "row 1: Kind": "moulded paper",
  "row 1: Duty": "antenna of a live chassis",
  "row 1: Value": "4.7 nF",
  "row 1: Rated V": "500",
};

/** A row of docs/whole-jobs.md: what a job had, what was found of it and by what, and what it took. */
const rows = new Map<string, string>();
function rowOf(world: World, job: Played, besides: ReturnType<typeof besideOf>): string {
  const own = held.filter((h) => h.what.startsWith(`${world.id} `));
  const inside = own.filter((h) => h.truth >= h.low && h.truth <= h.high);
  const charted = ofStages(world).length + ofSupply(world).length;
  const shown = besides.filter((b) => faultsOf(job.view).some((f) => f.id === b.shows?.id)).length;
  const closed = faultsOf(job.view).filter((f) => f.state === "closed").length;
  const cells = [
    world.id,
    world.truth.faults.map((f) => f.fault).join(", "),
    `${charted} by the chart, ${shown} by other readings, ${besides.length - shown} by the eye or ear`,
    String(closed),
    `${inside.length} of ${own.length}`,
    String(job.typed),
    String(job.before),
    world.set.liveChassis ? "refused: live chassis" : "safety record holds",
  ];
  return `| ${cells.join(" | ")} |`;
}

describe.each(ids)("the whole job %s", (id) => {
  const world = worldOf(id);
  const job = begin(world);
  const besides = besideOf(world);
  /** id of the fault in the job, by its id in the world */
  const ends = new Map<string, string>();
  const holdStrip = (when: "found" | "left"): void => {
    held.push(...stripHeld(world, readSweep(world, job, when), when));
  };

  it("shows every fault of stages and supply by the chart as found, and names its cause, alone or in an honest tie", () => {
    sitDown(job);
    readChart(world, job, "found");
    const places = faultsOf(job.view).map((x) => x.place);
    for (const f of [...ofStages(world), ...ofSupply(world)]) expect(places, `${f.id} ${f.fault}`).toContain(placeOf(f));
    for (const f of ofStages(world)) {
      const answer = onStage(job, placeOf(f));
      const causes = answer.tables.flatMap((t) => t.rows.map((r) => String(r[0])));
      expect(`${causes.join("; ")} ${answer.headline}`, `${f.id} ${f.fault}`).toMatch(known[f.fault].cause);
    }
    for (const f of ofSupply(world)) {
      const said = ["volts", "b-plus"].flatMap((q) => {
        const a = ask(sheetById(q)!, job.view, undefined, few);
        return [a.headline, ...a.findings.map((x) => x.says)];
      });
      expect(said.join(" "), `${f.id} ${f.fault}`).toMatch(atSupply[f.fault].says);
    }
  });
  it("settles each of its stages by the tests that the question asks for", () => {
    for (const f of ofStages(world)) {
      const chances = onStage(job, placeOf(f), testsOf(f)).tables[0].rows.map((r) => [String(r[0]), Number(r[2])] as const);
      const [first] = chances.filter(([, p]) => Number.isFinite(p)).sort(([, a], [, b]) => b - a);
      expect(first[0], `${f.id} ${f.fault}`).toMatch(known[f.fault].cause);
      expect(first[1], `${f.id} ${f.fault}`).toBeGreaterThan(0.5);
    }
  });
  it("is mended part by part, proved by what is read again, and closed", () => {
    for (const f of ofSupply(world)) {
      const how = atSupply[f.fault];
      const shown = orThrow(faultNamed(job.view, "supplies"));
      mend(job, {
        part: how.part,
        place: "supplies",
        came: { is: how.in, measured: "", rated: how.part.includes("capacitor") ? "450 V" : "" },
        fault: shown.id,
      });
    }
    for (const f of ofStages(world)) {
      const how = known[f.fault];
      mend(job, {
        part: how.part,
        place: placeOf(f),
        label: how.part === "tube" ? (f.at ?? "") : "",
        came: { is: how.in, measured: "", rated: how.part.includes("capacitor") ? "500 V" : "" },
        fault: orThrow(faultNamed(job.view, placeOf(f))).id,
      });
    }
    // before anything was read again, nothing is proved
    const all = [...ofStages(world), ...ofSupply(world)].map((f) => placeOf(f));
    const before = job.view;
    for (const place of all) {
      const shown = orThrow(faultNamed(job.view, place));
      expect(() => put(job, act(shown.id, place, "prove")), place).toThrow();
    }
    expect(job.view).toBe(before);
    readChart(world, job, "left");
    for (const place of all) {
      const shown = orThrow(faultNamed(job.view, place));
      expect(shown.signs, place).toEqual([]);
      put(job, act(shown.id, place, "prove"), act(shown.id, place, "close"));
      expect(faultsOf(job.view).find((f) => f.id === shown.id)?.state).toBe("closed");
    }
  });
  it("finds the range whose oscillator is off and the part, or says that two can't be told apart; leaves the others alone", () => {
    readDial(world, job, "found");
    const bad = world.truth.faults.find((f) => ["padder", "trimmer", "coil"].includes(f.fault))!;
    for (const range of Object.keys(world.set.ranges)) {
      const says = ask(sheetById("tracking")!, job.view, `bands.${bandId(range)}`, few).headline;
      if (bad.at !== `range ${range}`) expect(says, range).toContain("nothing to do");
      else if (bad.fault === "trimmer") expect(says).toContain("across the gang (trimmer or strays)");
      else expect(says).toMatch(new RegExp(`the ${bad.fault}(?: is perhaps|,) [\\d.]+ % too ${(bad.off ?? 0) > 0 ? "large" : "small"}`));
    }
  });
  it("shows by its readings what is wrong on the line's side, in the strip, on the dial and in the accessory: all of it", () => {
    readSafety(world, job, "found");
    expect(recordIssues(job.view, "35")).not.toEqual([]);
    expect(ownersReportOf(job.view, []).safety.holds).toBe(false);
    holdStrip("found");
    readAccessory(world, job, "found");
    if (besides.some((b) => b.fault.fault === "antennaCapacitorLeak")) {
      put(job, { kind: "form", form: "capacitors", fields: antennaOnCard });
      count(job, Object.keys(antennaOnCard).length);
    }
    // the chart says which range its meter stood on: what only looked off on another is gone
    const { chartMeter, lineV } = world.set;
    const loose = faultsOf(job.view).filter(
      (f) => f.unrecorded && f.place.startsWith("stages.") && !besides.some((b) => b.shows?.id === f.id),
    );
    expect(loose.length, loose.map((f) => f.words).join("; ")).toBeLessThanOrEqual(1);
    put(job, { kind: "form", form: "voltage-chart", fields: { "Chart's meter and line": `${chartMeter}, 300 V range, ${lineV} V` } });
    const shown = faultsOf(job.view).filter((f) => f.unrecorded);
    for (const b of besides) {
      const own = shown.find((f) => f.id === b.shows?.id);
      if (own) expect(own.words, b.fault.id).toMatch(b.shows?.says ?? /^$/);
      else put(job, { ...act(b.fault.id, b.place, "notice"), words: b.cause });
    }
    // what the readings show is there, and all of it but what lies even about its centre, or needs a chart
    expect(shown.filter((f) => !besides.some((b) => b.shows?.id === f.id)).map((f) => `${f.id}: ${f.words}`)).toEqual([]);
    const unseen = besides.filter((b) => b.shows && !shown.some((f) => f.id === b.shows?.id)).map((b) => b.fault.id);
    expect(unseen).toEqual([]);
  });
  it("finds the accessory's bad part and what is off, with an interval that holds it", () => {
    for (const { fault, place } of besides.filter((b) => b.fault.fault === "accessoryResistor")) {
      const causes = onStage(job, place).tables.flatMap((t) => t.rows.map((r) => String(r[0])));
      expect(causes.join("; ")).toMatch(/screen resistor/);
      const settled = onStage(job, place, testsOf(fault)).tables[0].rows.map((r) => [String(r[0]), Number(r[2])] as const);
      const [first] = settled.filter(([, p]) => Number.isFinite(p)).sort(([, a], [, b]) => b - a);
      expect(first[0]).toMatch(/screen resistor/);
      expect(first[1]).toBeGreaterThan(0.9);
    }
    held.push(...accessoryHeld(world, job, "found"));
    if (besides.some((b) => b.fault.fault === "antennaCapacitorLeak")) {
      const said = ask(sheetById("reform")!, job.view, undefined, few).findings.map((f) => `${f.says} ${f.do ?? ""}`);
      expect(said.join(" ")).toContain("puts the line on the antenna terminal");
    }
  });
  it("ends with every one of them mended, proved by what is read after, and closed", () => {
    for (const b of besides) {
      const { id: known } = orThrow(
        faultNamed(job.view, faultsOf(job.view).some((f) => f.id === b.fault.id) ? b.fault.id : (b.shows?.id ?? "")),
      );
      if (b.part)
        mend(job, {
          part: b.part.kind,
          place: b.place,
          out: { is: b.part.out, measured: "", rated: "" },
          came: { is: b.part.in, measured: "", rated: b.part.rated },
          fault: known,
        });
      else {
        const seen = faultsOf(job.view).find((f) => f.id === known);
        const notice = seen?.unrecorded ? [{ ...act(known, b.place, "notice"), words: seen.words }] : [];
        put(job, ...notice, { ...act(known, b.place, "cause"), cause: b.cause });
        put(job, ...orThrow(planWork(job.view, { work: b.work ?? "", subject: b.place, note: b.cause }, stamp())).entries);
      }
      expect(() => put(job, act(known, b.place, "prove")), b.fault.id).toThrow();
      ends.set(b.fault.id, known);
    }
    sitAgain(world, job);
    readSafety(world, job, "left");
    holdStrip("left");
    readDial(world, job, "left");
    readAccessory(world, job, "left");
    held.push(...accessoryHeld(world, job, "left"));
    for (const b of besides) {
      const known = ends.get(b.fault.id) ?? "";
      put(job, act(known, b.place, "prove"), act(known, b.place, "close"));
      expect(faultsOf(job.view).find((f) => f.id === known)?.state, b.fault.id).toBe("closed");
    }
    expect(
      faultsOf(job.view)
        .filter(isOpenFault)
        .map((f) => `${f.id}: ${f.words}`),
    ).toEqual([]);
    for (const { place } of besides.filter((b) => b.work === "oscillator-aligned"))
      expect(ask(sheetById("tracking")!, job.view, place, few).headline, place).not.toMatch(/(?<![\d.])(?:[2-9]|\d\d)(?:\.\d)? % too/);
  });
  it("is handed over by its safety record alone, and never with a live chassis", () => {
    const lacks = recordIssues(job.view, "35").map((i) => i.path);
    expect(lacks).toEqual(world.set.liveChassis ? ["chassis"] : []);
    if (world.set.liveChassis) expect(() => put(job, done("35"))).toThrow();
    // what hand-over rests on was not proved by this record
    expect(() => put(job, done("36"))).toThrow();
    const { short, safety } = ownersReportOf(job.view, []);
    expect(safety.holds).toBe(false);
    expect(short.at(-1)).toMatch(/^NOT proved safe/);
    if (world.set.accessory) expect(proofIssues(job.view, "31e").map((i) => i.code)).toContain("not-read");
  });
  it("is reported with each fault's end, and takes half of the typing at most", () => {
    const { wrong, exchanged } = ownersReportOf(job.view, []);
    const mended = ofStages(world).length + ofSupply(world).length;
    expect(wrong.length).toBe(mended + besides.length);
    expect(wrong.filter((w) => w.cause === "" || w.cause === "Not found yet.")).toEqual([]);
    expect(wrong.filter((w) => /[Pp]roved/.test(w.became)).length).toBe(mended + besides.length);
    expect(exchanged.length).toBe(mended + besides.filter((b) => b.part).length);
    readDrift(world, job);
    held.push(...driftHeld(world, job));
    expect(job.typed, `of ${job.before}`).toBeLessThanOrEqual(job.before / 2);
    rows.set(id, rowOf(world, job, besides));
  });
  it.skipIf(!canRead)("is printed whole for its owner and for who works on it next", async () => {
    await expectPapers(job.view);
  });
});

it("stands in the page on whole jobs as it comes out now", () => {
  const page = readFileSync(new URL("../../../docs/whole-jobs.md", import.meta.url), "utf8").replace(/ +/g, " ");
  expect([...rows.values()].filter((r) => !page.includes(r)).join("\n")).toBe("");
});

it("the figures of all whole jobs hold the truth within their intervals at about the stated rate", () => {
  const missed = held.filter((h) => h.truth < h.low || h.truth > h.high).map((h) => h.what);
  expect(held.length).toBeGreaterThanOrEqual(60);
  // 95 % stated: more than seven misses of some seventy would come once in fifty
  expect(missed.length, missed.join("; ")).toBeLessThanOrEqual(7);
});

import { faultNamed, faultsOf } from "../../job/faults/faults";
import { planWork } from "../../job/works";
import { InputError, orThrow } from "../../units/issue";
import { type Beside, besideOf, readAccessory, readDial, readDrift } from "./beside.testdata";
import { accessoryHeld, driftHeld, type Held, stripHeld } from "./held.testdata";
import { atSupply, known, mend, ofStages, ofSupply, placeOf } from "./mended.testdata";
import { begin, type Played, put, readChart, readSafety, readSweep, sitAgain, sitDown, stamp } from "./played.testdata";
import type { World } from "./world.testdata";

/** A whole job played for its figures: what it states with an interval, and how many of its faults show by readings and end proved. */
export interface Rate {
  readonly held: readonly Held[];
  readonly faults: number;
  readonly shown: number;
  readonly closed: number;
  /** faults that no reading showed, or that were not closed */
  readonly open: readonly string[];
}
const act = (f: string, place: string, does: string) => ({ kind: "fault", fault: f, does, place, words: "", rests: [] });
/** Id of the fault at a place as its readings show it, noticed by the eye where they don't. */
function idAt(job: Played, place: string, id: string, cause: string): { readonly id: string; readonly shown: boolean } {
  const f = faultsOf(job.view).find((x) => x.id === id || (id === place && x.place === place));
  if (f) return { id: f.id, shown: true };
  put(job, { ...act(`seen-${place}-${cause.replace(/\W/g, "")}`, place, "notice"), words: cause });
  return { id: `seen-${place}-${cause.replace(/\W/g, "")}`, shown: false };
}
function closes(job: Played, id: string, place: string): boolean {
  try {
    put(job, act(id, place, "prove"), act(id, place, "close"));
  } catch (e) {
    if (!(e instanceof InputError)) throw e;
    return false;
  }
  return faultsOf(job.view).find((f) => f.id === id)?.state === "closed";
}
function mendBeside(job: Played, b: Beside, id: string): void {
  if (b.part) {
    const { kind, out, in: came, rated } = b.part;
    mend(job, {
      part: kind,
      place: b.place,
      out: { is: out, measured: "", rated: "" },
      came: { is: came, measured: "", rated },
      fault: id,
    });
    return;
  }
  const seen = orThrow(faultNamed(job.view, id));
  if (seen.unrecorded) put(job, { ...act(id, b.place, "notice"), words: seen.words });
  put(job, { ...act(id, b.place, "cause"), cause: b.cause });
  put(job, ...orThrow(planWork(job.view, { work: b.work ?? "", subject: b.place, note: b.cause }, stamp())).entries);
}

/**
 * Plays a world from its chart as found to its drift as left.
 *
 * @param world of any seed
 * @returns figures beside the truth, and how its faults ended
 */
export function playForRate(world: World): Rate {
  const job = begin(world);
  const ends: { id: string; place: string; shown: boolean; closed: boolean }[] = [];
  sitDown(job);
  readChart(world, job, "found");
  const charted = [...ofSupply(world), ...ofStages(world)].map((f) => {
    const place = placeOf(f);
    const how = Object.hasOwn(atSupply, f.fault) ? atSupply[f.fault] : known[f.fault];
    const rated = how.part.includes("capacitor") ? (place === "supplies" ? "450 V" : "500 V") : "";
    return { place, ...idAt(job, place, place, f.fault), how, rated, label: how.part === "tube" ? (f.at ?? "") : "" };
  });
  for (const { how, place, label, rated, id } of charted)
    mend(job, { part: how.part, place, label, came: { is: how.in, measured: "", rated }, fault: id });
  readChart(world, job, "left");
  ends.push(...charted.map(({ id, place, shown }) => ({ id, place, shown, closed: closes(job, id, place) })));
  readDial(world, job, "found");
  readSafety(world, job, "found");
  const held: Held[] = [...stripHeld(world, readSweep(world, job, "found"), "found")];
  readAccessory(world, job, "found");
  held.push(...accessoryHeld(world, job, "found"));
  const { chartMeter, lineV } = world.set;
  put(job, { kind: "form", form: "voltage-chart", fields: { "Chart's meter and line": `${chartMeter}, 300 V range, ${lineV} V` } });
  const beside = besideOf(world).filter((b) => b.fault.fault !== "antennaCapacitorLeak");
  const mended = beside.map((b) => ({ b, ...idAt(job, b.place, b.shows?.id ?? b.place, b.cause) }));
  for (const { b, id } of mended) mendBeside(job, b, id);
  sitAgain(world, job);
  readSafety(world, job, "left");
  held.push(...stripHeld(world, readSweep(world, job, "left"), "left"));
  readDial(world, job, "left");
  readAccessory(world, job, "left");
  held.push(...accessoryHeld(world, job, "left"));
  ends.push(...mended.map(({ b, id, shown }) => ({ id, place: b.place, shown, closed: closes(job, id, b.place) })));
  readDrift(world, job);
  held.push(...driftHeld(world, job));
  const open = ends
    .filter((e) => !e.shown || !e.closed)
    .map((e) => `${e.id} ${e.shown ? "" : "not shown "}${e.closed ? "" : "not closed"}`);
  return { held, open, faults: ends.length, shown: ends.filter((e) => e.shown).length, closed: ends.filter((e) => e.closed).length };
}

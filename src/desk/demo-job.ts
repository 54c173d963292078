import type { StripFit } from "../infer/strip/fit";
import type { Entry, Reading } from "../job/document";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { orThrow } from "../units/issue";
import { exact } from "../units/quantity";
import { type Desk, openJob } from "./actions";
import { assignment } from "./assignment";
import {
  demoBand,
  demoCards,
  demoDialInvented,
  demoInvented,
  demoName,
  demoRows,
  demoSet,
  demoSetPoint,
  demoSupply,
  demoSweepCsv,
  demoZeroBeatsCsv,
} from "./demo";
import { demoThread } from "./demo-thread";
import type { ReadingAsk } from "./read-in/asking";
import { record } from "./record";

export const demoSweepFile = "as-found-sweep.csv";
export const demoBeatsFile = "zero-beats.csv";
export interface DemoJob {
  readonly name: string;
  readonly sweep: { readonly csv: string; readonly reading: Reading; readonly fit?: StripFit };
  readonly beats: { readonly csv: string; readonly reading: Reading };
}
const proved = "01 02 03 04 06 07 08 12 13 14 15 29a 34a 16 17 18 20 22 27 33b".split(" ");

/** What stands proved before the demo's readings: the sweep generator, the chassis, and the steps before the accessory came. */
const provedBefore = ({ newId, at, who }: Stamp): Entry[] => [
  {
    id: newId(),
    at,
    who,
    kind: "instrument",
    instrument: {
      id: "sweep",
      kind: "sweep of level over frequency",
      label: "invented sweep generator and detector",
      ranges: [],
      uncertainty: "0.08 dB",
      lastCheck: "never: invented",
      offset: "none",
    },
  },
  {
    id: newId(),
    at,
    who,
    kind: "chassis" as const,
    state: "isolated" as const,
    evidence: { ohms: { value: 8e6, spread: exact, origin: "measured" as const, source: "insulation tester, invented" } },
    meter: "insulation tester, 500 V (invented)",
    how: "each blade of the plug to the chassis, unplugged, switch on; own transformer traced (invented)",
    transformer: "",
    confirmed: true,
  },
  ...proved.map((step) => ({ id: newId(), at, who, kind: "done" as const, step, note: "invented: proved before the accessory came" })),
];
/** The demo's cards, supply and charts as found. */
const asFound = (view: JobView, { newId, at, who }: Stamp): Entry[] => [
  ...Object.entries(demoCards).map(([form, fields]) => ({ id: newId(), at, who, kind: "form" as const, form, fields: { ...fields } })),
  ...Object.entries(demoSupply).map(([path, { value, source, u = 0.005 * value }]) => ({
    id: newId(),
    at,
    who,
    kind: "values" as const,
    values: { [path]: { value, spread: u > 0 ? { shape: "normal" as const, u } : exact, origin: "measured" as const, source } },
    why: source,
  })),
  ...Object.entries(demoRows).map(([path, { text, source }]) =>
    orThrow(assignment(view, path, text, { origin: "stated", why: source }, { at, who, newId })),
  ),
];

/** Reads one of the demo's files into its job. */
async function take(desk: Desk, name: string, file: string, csv: string, how: ReadingAsk) {
  const { at, who } = desk.stamp;
  const view = await openJob(desk, name);
  const r = await desk.errands.run("read", {
    document: view.document,
    file: { name: file, bytes: new TextEncoder().encode(csv) },
    how,
    signed: { at, who },
  });
  await record(desk, view, r.entries, [r.file]);
  return { csv, reading: r.reading, ...(r.fit ? { fit: r.fit } : {}) };
}

/** Makes the demo's job up to the point where the cable is to be fitted: set, proofs, sweep with its fit, zero beats of the dial. */
export async function makeDemo(desk: Desk): Promise<DemoJob> {
  const taken = new Set((await desk.store.list(demoName)).jobs.map((j) => j.name));
  let name = demoName;
  for (let i = 2; taken.has(name); i++) name = `${demoName} ${i}`;
  const { stamp } = desk;
  await desk.store.create({ id: stamp.newId(), name, created: stamp.at, set: demoSet(), entries: provedBefore(stamp) });
  const described = await openJob(desk, name);
  await record(desk, described, asFound(described, stamp));
  const sweep = await take(desk, name, demoSweepFile, demoSweepCsv(), {
    as: "if-sweep",
    state: "as-found",
    instrument: "sweep",
    invented: demoInvented,
  });
  const beats = await take(desk, name, demoBeatsFile, demoZeroBeatsCsv(), {
    as: "dial",
    state: "as-left",
    band: demoBand,
    setPoint: demoSetPoint,
    invented: demoDialInvented,
  });
  await demoThread(desk, name);
  return { name, sweep, beats };
}

/** Records the demo's piece of work: the cable at the mixer plate. */
export async function fitDemoCable(desk: Desk, name: string): Promise<void> {
  const view = await openJob(desk, name);
  const { at, who } = desk.stamp;
  const plan = await desk.errands.run("plan", {
    document: view.document,
    said: {
      work: "cable-fitted",
      subject: "fittings.qm",
      note: "1.5 m of 93-ohm cable through the back apron (invented)",
      now: { "fittings.qm.cableLength": "1.5 m ± 2 cm" },
    },
    signed: { at, who },
  });
  await record(desk, view, plan.entries);
}

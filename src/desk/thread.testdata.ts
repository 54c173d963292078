import { admit } from "../job/admit";
import { faultNamed } from "../job/faults/faults";
import { formatVersion } from "../job/format";
import { refusalLines } from "../job/refusal";
import { carriedOnto } from "../job/sitting";
import { type JobView, viewOf } from "../job/view";
import { patterns } from "../set/patterns/kinds";
import { InputError, orThrow } from "../units/issue";

import { type MendSaid, mending } from "./mend";

/** An invented job whose first IF stage has a chart and low screen volts. */
let clock = 0;
export const stamp = () => ({ at: new Date(Date.UTC(2026, 0, 2) + 60e3 * ++clock).toISOString(), who: "t", newId: () => `e${++clock}` });
export const blank = viewOf({
  format: "fettle-job",
  version: formatVersion,
  id: "j",
  name: "j",
  created: "2026-01-01T00:00:00Z",
  set: patterns[0],
  entries: [],
});
export const first = blank.set.tubes.find((t) => blank.set.stages.find((s) => s.id === t.stage)?.kind === "if-tube")!;
export const place = `stages.${first.stage}`;
export const chart = {
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
export const record = (view: JobView, ...entries: readonly Record<string, unknown>[]): JobView => {
  const { at, who, newId } = stamp();
  const made = entries.map((e) => ({ at, who, id: newId(), ...e }));
  return viewOf({ ...view.document, entries: [...view.document.entries, ...orThrow(admit(view, made)).map((e) => carriedOnto(view, e))] });
};
export const form = (fields: Readonly<Record<string, string>>) => ({ kind: "form", form: "voltage-chart", fields });
export const act = (does: string, more: object = {}) => ({ kind: "fault", fault: place, does, place, words: "", rests: [], ...more });
export const nothing = { is: "", measured: "", rated: "" };
export const said = (more: Partial<MendSaid> = {}): MendSaid => ({
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
export const mended = (view: JobView, more: Partial<MendSaid> = {}): JobView => {
  const plan = mending(view, said(more), stamp());
  return viewOf({ ...view.document, entries: [...view.document.entries, ...orThrow(admit(view, plan.entries))] });
};
export const read = record(blank, form(chart));
export const fault = (view: JobView) => orThrow(faultNamed(view, place));
export const issuesOf = (work: () => unknown): string => {
  try {
    work();
  } catch (e) {
    if (e instanceof InputError) return e.issues.map((i) => `${i.code} ${i.path} ${i.expected}`).join("; ");
    throw e;
  }
  return "";
};
/** A refusal as a person reads it. */
export const refusedBy = (work: () => unknown): string => {
  try {
    work();
  } catch (e) {
    if (!(e instanceof InputError)) throw e;
    return refusalLines(e.issues)
      .map((l) => l.says)
      .join(" ");
  }
  return "";
};

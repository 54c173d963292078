import { z } from "zod";
import { capacitorKinds, leakageLimitA } from "../../../standards/electrolytics";
import { parseQuantity } from "../../../units/parse";
import { standardUncertainty } from "../../../units/quantity";
import { cardRows, writtenOn } from "../../cards";
import type { EntryOf } from "../../document";
import { partKindById } from "../../mending/kinds";
import { ofKind } from "../../place-in";
import type { JobView } from "../../view";

/** A part of some kind, and whether it was found to have failed. */
export interface PartSeen {
  /** such as `wax paper, screen bypass` */
  readonly kind: string;
  readonly failed: boolean;
}
/** What one job saw of its set that can be laid beside others: nothing in it is a figure of a what-if, or was taken back. */
export interface SetSeen {
  readonly job: string;
  /** what kind of set it is, as the intake card or the description says */
  readonly kind: string;
  /** serial or marks; two jobs of one set count once */
  readonly serial: string;
  /** windings of IF cans that a sweep as found could judge: how far off the IF, Hz, and whether by more than its own doubt */
  readonly windings: readonly { readonly which: string; readonly offHz: number; readonly off: boolean }[];
  readonly capacitors: readonly PartSeen[];
  readonly tubes: readonly PartSeen[];
  /** drift after the first hour, ppm of the frequency per hour, where a log goes on long enough */
  readonly driftPpmPerHour?: number;
}

const partSchema = z.object({ kind: z.string(), failed: z.boolean() });
/** The same where it was kept as JSON. */
export const seenSchema: z.ZodType<SetSeen> = z.object({
  job: z.string(),
  kind: z.string(),
  serial: z.string(),
  windings: z.array(z.object({ which: z.string(), offHz: z.number(), off: z.boolean() })),
  capacitors: z.array(partSchema),
  tubes: z.array(partSchema),
  driftPpmPerHour: z.number().optional(),
});

const plain = (said: string): string => said.replace(/[\s-]+/g, "").toUpperCase();
/** Parts that came out as the cause of a fault. */
const failedParts = (view: JobView): readonly EntryOf<"part">[] => ofKind(view.inForce, "part").filter((e) => e.fault !== undefined);

/** A winding counts as judged where the sweep told it better than half of what was known before. House rule. */
const toldRatio = 0.5;
function windingsSeen(view: JobView): SetSeen["windings"] {
  const found = new Set(view.readings.filter((r) => r.state === "as-found").map((r) => r.id));
  const seen = new Map<string, SetSeen["windings"][number]>();
  for (const e of ofKind(view.inForce, "values")) {
    if (e.fit === undefined) continue;
    if (!view.estimates.get(e.fit)?.fromReadings.every((r) => found.has(r))) continue;
    for (const [path, q] of Object.entries(e.values)) {
      const m = /^strip\.can(\d+)\.(primary|secondary)Offset$/.exec(path);
      if (!m || seen.has(path)) continue;
      const before = view.document.set.strip.cans.at(Number(m[1]) - 1)?.[m[2] === "primary" ? "primaryOffset" : "secondaryOffset"];
      const u = standardUncertainty(q.spread);
      if (before && u > toldRatio * standardUncertainty(before.spread)) continue;
      seen.set(path, { which: `can ${m[1]}, ${m[2]}`, offHz: q.value, off: Math.abs(q.value) > 2 * u });
    }
  }
  return [...seen.values()];
}

const kindOf = (said: string): string => {
  const word = said.trim().toLowerCase();
  return capacitorKinds.find((k) => k === word) ?? word;
};
/** Capacitors that were judged: by a leakage that was measured, or by coming out as the cause of a fault. One that went untested is neither. */
function capacitorsSeen(view: JobView): readonly PartSeen[] {
  const parts = failedParts(view).filter((e) => partKindById(e.part)?.value === "capacitance");
  const named = new Set(parts.map((e) => plain(e.label)).filter((l) => l !== ""));
  const seen: PartSeen[] = [];
  for (const { cells } of cardRows(view, "capacitors")) {
    const name = plain(cells.Part ?? "");
    const byFault = name !== "" && named.delete(name);
    const leakage = parseQuantity(withUnit(cells["Leakage mA"] ?? "", "mA"), "current", "Leakage");
    if (!byFault && !leakage.ok) continue;
    const kind = [kindOf(cells.Kind ?? ""), (cells.Duty ?? "").trim().toLowerCase()].filter(Boolean).join(", ");
    seen.push({ kind: kind || "capacitor", failed: byFault || (leakage.ok && leaks(cells, leakage.value.value)) });
  }
  const elsewhere = parts.filter((e) => plain(e.label) === "" || named.has(plain(e.label)));
  return [...seen, ...elsewhere.map((e) => ({ kind: `${partKindById(e.part)?.title.toLowerCase()}, not in a survey`, failed: true }))];
}
const withUnit = (said: string, unit: string): string => (/^[\d.,]+$/.test(said.trim()) ? `${said} ${unit}` : said);
/** Only of electrolytics is there a limit of leakage; another kind fails by the fault that it causes. */
function leaks(cells: Readonly<Record<string, string>>, leakageA: number): boolean {
  if (kindOf(cells.Kind ?? "") !== "electrolytic") return false;
  const value = parseQuantity(cells.Value ?? "", "capacitance", "Value");
  const rating = parseQuantity(withUnit(cells["Rated V"] ?? "", "V"), "voltage", "Rated V");
  return value.ok && rating.ok && leakageA > leakageLimitA("JAN-C-62", value.value.value, rating.value.value);
}

/** Below so much of a new one's transconductance a tube is worn. Common practice, no source. */
const wornPercent = 60;
const isYes = (said = ""): boolean => /^(?:y|yes|bad|short|gas|some|present)/i.test(said.trim());
function tubesSeen(view: JobView): readonly PartSeen[] {
  const failed = new Set(
    failedParts(view)
      .filter((e) => e.part === "tube")
      .map((e) => e.place),
  );
  return cardRows(view, "tubes").flatMap(({ cells }) => {
    const type = (cells["Type found"] ?? "").trim().toUpperCase();
    const gm = Number.parseFloat((cells["gm %"] ?? "").replace(",", "."));
    const told = ["Shorts", "Gas", "Heater to cathode"].filter((c) => (cells[c] ?? "").trim() !== "");
    const socket = (cells.Socket ?? "").trim().split(/\s/)[0];
    const stage = view.set.tubes.find((t) => t.socket === socket)?.stage;
    const byFault = stage !== undefined && failed.has(`stages.${stage}`);
    if (type === "" || (!Number.isFinite(gm) && told.length === 0 && !byFault)) return [];
    return [{ kind: type, failed: byFault || gm < wornPercent || told.some((c) => isYes(cells[c])) }];
  });
}

const hourS = 3600;
/** A log says how a set drifts once warm where it goes on for so long past the first hour. House rule. */
const leastPastS = 900;
/** The mean drift past the first hour, by the last log: common practice is to judge a set then, no source. */
function driftSeen(view: JobView): number | undefined {
  const log = ofKind(view.inForce, "rows").findLast((e) => e.path === "drift.driftLog");
  const rows = (log?.rows ?? []).flatMap(({ time, frequency }) =>
    typeof time === "number" && typeof frequency === "number" && time >= hourS && frequency > 0 ? [{ time, frequency }] : [],
  );
  const [first, last] = [rows.at(0), rows.at(-1)];
  if (!first || !last || last.time - first.time < leastPastS) return undefined;
  return (1e6 * (last.frequency - first.frequency)) / first.frequency / ((last.time - first.time) / hourS);
}

/** Whether any of it was made up: a demo's readings say so themselves, and so does a rehearsal's. */
const isInvented = (view: JobView): boolean =>
  ofKind(view.document.entries, "reading").some((e) => e.reading.invented !== undefined) ||
  ofKind(view.document.entries, "instrument").some((e) => /\binvented\b/i.test(e.instrument.label));

/**
 * What a job saw of its set that others can be laid beside.
 *
 * @param view the job
 * @returns what was seen; undefined of a demo's job, and of a copy of another one
 * @source house frame
 */
export function seenIn(view: JobView): SetSeen | undefined {
  if (isInvented(view) || view.document.broughtIn?.copyOf !== undefined) return undefined;
  const intake = writtenOn(view, "intake");
  const drift = driftSeen(view);
  return {
    job: view.document.name,
    kind: (intake["What it is said to be"] ?? "").trim() || view.set.title.trim(),
    serial: plain(intake["Serial or marks"] ?? ""),
    windings: windingsSeen(view),
    capacitors: capacitorsSeen(view),
    tubes: tubesSeen(view),
    ...(drift === undefined ? {} : { driftPpmPerHour: drift }),
  };
}

import { quantityAt } from "../../set/paths";
import { ask as accessoryCapacitors, type Asked as Capacitors } from "../../sheets/accessory-capacitors/ask";
import { decideOwn, offBy } from "../../sheets/accessory-capacitors/solve";
import { ask as converterSetting, type Asked as Setting } from "../../sheets/converter-setting/ask";
import { crystalReadHz } from "../../sheets/converter-setting/solve";
import { ask as markerTrim, type Asked as Trim } from "../../sheets/marker-trim/ask";
import { solveTrim } from "../../sheets/marker-trim/solve";
import { type Asked as Centre, ask as multiplierCentre } from "../../sheets/multiplier-centre/ask";
import { isOffCentre } from "../../sheets/multiplier-centre/findings";
import { centreSolver } from "../../sheets/multiplier-centre/solve";
import { printValue } from "../../units/print";
import { exact, standardUncertainty } from "../../units/quantity";
import { accessoriesOf } from "../accessory-states";
import { onCard } from "../place-in";
import { failingOnLine } from "../safety-record";
import type { JobView } from "../view";
import { currentSigns } from "./current-signs";
import { dialSigns } from "./dial-signs";
import { hazardSigns } from "./hazard-signs";
import { readOf } from "./read-of";
import type { Sign } from "./sign";
import { stripSigns } from "./strip-signs";

const hz = (v: number): string => printValue(v, "frequency", Math.max(1, Math.abs(v) / 20));
const writtenBy = (view: JobView, at: string, names: readonly string[]): string =>
  names.flatMap((n) => view.kept.get(`${at}.${n}`) ?? []).at(-1) ?? "";

/** Entry that wrote the last measurement of a capacitor on an accessory's card. */
const surveyed = (view: JobView): string =>
  onCard(view.inForce, "accessory-capacitors").findLast((e) => Object.keys(e.fields).some((k) => /Measured value|Leakage/.test(k)))?.id ??
  "";
/** Capacitors of an accessory that were measured and go. */
function capacitorSigns(view: JobView, place: string): readonly Sign[] {
  const x = readOf<Capacitors>(view, accessoryCapacitors, place);
  if (!x) return [];
  return decideOwn(x)
    .filter((c) => c.decision === "replace" && (offBy(x, c.row) !== undefined || !Number.isNaN(x.capacitors[c.row - 1].leakage)))
    .map((c): Sign => {
      const own = x.capacitors[c.row - 1];
      const reads = Number.isNaN(own.measured) ? "" : ` reads ${printValue(own.measured, "capacitance")}`;
      return {
        place,
        of: "capacitors",
        point: `capacitor, row ${c.row}`,
        says: `${printValue(own.value, "capacitance")} (${c.duty})${reads}: ${c.why}`,
        entry: surveyed(view),
      };
    });
}
type SettingSign = Pick<Sign, "of" | "point" | "says">;
/** Where an accessory was read to sit off its place: a Q multiplier off its centre, a marker or a converter's crystal off its frequency. */
const settings: Readonly<Record<string, readonly [names: readonly string[], off: (view: JobView, at: string) => SettingSign | undefined]>> =
  {
    "q-multiplier": [
      ["centreBeat"],
      (view, at) => {
        const x = readOf<Centre>(view, multiplierCentre, at);
        if (x?.beat === undefined) return undefined;
        // no more off than the reading is surely off, and no more uneven than a strip makes it that is so with the tank on its centre
        const doubt = 1.96 * standardUncertainty(quantityAt(view.set, `${at}.centreBeat`)?.spread ?? exact);
        const solver = centreSolver();
        const { lost, uneven } = solver.solve({ ...x, beat: Math.max(0, Math.abs(x.beat) - doubt) });
        const centred = solver.solve({ ...x, beat: 0 }).uneven;
        const more = typeof uneven === "number" && typeof centred === "number" ? uneven - centred : uneven;
        return isOffCentre(lost, more)
          ? { of: "centre", point: "its note against the carrier", says: `it peaks ${hz(x.beat)} off the carrier` }
          : undefined;
      },
    ],
    "marker-generator": [
      ["beat"],
      (view, at) => {
        const x = readOf<Trim>(view, markerTrim, at);
        if (!x) return undefined;
        const { errorAtTarget } = solveTrim(x);
        return Math.abs(errorAtTarget) > x.wanted
          ? {
              of: "crystal",
              point: "its beat with the standard",
              says: `its markers are ${hz(Math.abs(errorAtTarget))} off at ${printValue(x.target, "frequency", 5e4)}`,
            }
          : undefined;
      },
    ],
    converter: [
      ["converterHeard", "crystalCounted"],
      (view, at) => {
        const x = readOf<Setting>(view, converterSetting, at);
        const read = x && x.crystal > 0 ? crystalReadHz(x) : undefined;
        return x && read !== undefined && Math.abs(read - x.crystal) > x.crystalWanted
          ? {
              of: "crystal",
              point: "its crystal",
              says: `its crystal is ${hz(Math.abs(read - x.crystal))} ${read > x.crystal ? "high" : "low"}`,
            }
          : undefined;
      },
    ],
  };
function settingSigns(view: JobView, kind: string, place: string): readonly Sign[] {
  const [names, off] = Object.hasOwn(settings, kind) ? settings[kind] : [[]];
  const entry = writtenBy(view, place, names);
  const sign = entry === "" ? undefined : off?.(view, place);
  return sign ? [{ ...sign, place, entry }] : [];
}

/** What the safety cards show of the line's side: insulation and touch current out of their limits, by the last of each that was written. */
const lineSigns = (view: JobView): readonly Sign[] =>
  failingOnLine(view).map(({ field, text, fails, entry }) => ({
    place: "line",
    point: field,
    says: `${field.replace(/, [^,]+$/, "").toLowerCase()} ${text}${/\d$/.test(text) ? ` ${/, ([^,]+)$/.exec(field)?.[1] ?? ""}` : ""}, where ${fails} holds`,
    entry,
  }));

/**
 * What readings beside the charts show by themselves: the line's side, capacitors that can kill, the IF strip, dials, accessories.
 *
 * @param view the job as it stands
 * @returns signs, what can kill first
 * @source limits of the questions that judge the same readings
 */
export const signsBeside = (view: JobView): readonly Sign[] => [
  ...lineSigns(view),
  ...hazardSigns(view),
  ...stripSigns(view),
  ...dialSigns(view),
  ...currentSigns(view),
  ...accessoriesOf(view.set).flatMap((f) => [
    ...capacitorSigns(view, `fittings.${f.id}`),
    ...settingSigns(view, f.kind, `fittings.${f.id}`),
  ]),
];

import { decideCapacitors } from "../../sheets/inputs/capacitor-decision";
import { type Asked, ask as reform } from "../../sheets/reform/ask";
import type { Duty } from "../../standards/electrolytics";
import { printValue } from "../../units/print";
import { onCard } from "../place-in";
import type { JobView } from "../view";
import { readOf } from "./read-of";
import type { Sign } from "./sign";

/** Where a capacitor of a duty that can kill stands; its survey names it a danger, and so it is a fault until it is out. */
const placesOf: Readonly<Partial<Record<Duty, (view: JobView) => string>>> = {
  "line bypass": () => "line",
  "antenna of a live chassis": ({ set }) => {
    const antenna = set.stages.find((s) => s.kind === "antenna");
    return antenna ? `stages.${antenna.id}` : "line";
  },
  "series at B+": () => "supplies",
};
const written = (view: JobView): string =>
  onCard(view.inForce, "capacitors").findLast((e) => Object.keys(e.fields).some((k) => /: (?:Duty|Kind|Value|Leakage mA)$/.test(k)))?.id ??
  "";

/**
 * Capacitors of the survey that can kill where they stand: what has to come out is a fault with a life of its own.
 *
 * @param view the job as it stands
 * @returns a sign for each
 * @source sheets/reform
 */
export function hazardSigns(view: JobView): readonly Sign[] {
  const x = readOf<Asked>(view, reform, "");
  if (!x) return [];
  return decideCapacitors(x).flatMap((c): readonly Sign[] => {
    const place = placesOf[c.duty]?.(view);
    if (place === undefined || !c.decision.startsWith("replace")) return [];
    const own = x.capacitors[c.row - 1];
    return [
      {
        place,
        of: "capacitor",
        point: `capacitor, row ${c.row}`,
        says: `${c.kind} capacitor of ${printValue(own.value, "capacitance")} (${c.duty}): ${c.why}`,
        entry: written(view),
      },
    ];
  });
}

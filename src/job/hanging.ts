import type { MemberList } from "../set/members";
import { cardRows } from "./cards";
import { ofKind } from "./place-in";
import type { JobView } from "./view";

/**
 * What of a job hangs on a member of the description: values that were put there, rows of cards, tubes, taps and accessories at it, faults and parts.
 * They stay as they are when it changes, and are of nothing when it is taken out.
 *
 * @param view the job
 * @param list of the description
 * @param member what it is known by
 * @returns a line each
 * @source house frame
 */
export function hangingOn(view: JobView, list: MemberList, member: string): readonly string[] {
  const { set } = view;
  const path = list === "cans" ? `strip.${member}` : list === "nodes" ? `supplies.nodes.${member}` : `${list}.${member}`;
  const kept = [...view.kept.keys()].filter((k) => k.startsWith(`${path}.`));
  const rows =
    list === "tubes"
      ? ["voltage-chart", "resistance-chart"].flatMap((c) => cardRows(view, c).filter((r) => r.cells.Tube?.split(" ")[0] === member))
      : [];
  const fits = list === "cans" ? [...view.estimates.values()].filter((e) => e.names.some((n) => n.startsWith("strip."))) : [];
  const at = (says: string, of: readonly { readonly label?: string; readonly socket?: string }[]): readonly string[] =>
    of.length === 0 ? [] : [`${says}: ${of.map((x) => x.label ?? x.socket ?? "").join(", ")}`];
  const acts = ofKind(view.inForce, "fault", "part").filter((e) => e.place === path);
  return [
    ...(kept.length > 0 ? [`values recorded for it: ${kept.join(", ")}`] : []),
    ...(rows.length > 0 ? [`rows of its charts: ${rows.length}, judged by its type and by what it does`] : []),
    ...(fits.length > 0 ? ["a fit of the strip, made with the cans as they were: read the sweep in again"] : []),
    ...(list === "stages"
      ? [
          ...at(
            "tubes at it",
            set.tubes.filter((t) => t.stage === member),
          ),
          ...at(
            "taps at it",
            set.taps.filter((t) => t.stage === member),
          ),
        ]
      : []),
    ...(list === "taps"
      ? at(
          "accessories at it",
          set.fittings.filter((f) => f.tap === member),
        )
      : []),
    ...(list === "nodes"
      ? at(
          "taps on it",
          set.taps.filter((t) => t.node === member),
        )
      : []),
    ...(acts.length > 0 ? [`faults and parts at it: ${acts.length}`] : []),
  ];
}

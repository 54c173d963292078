import { socketNumber } from "../../set/sockets";
import { isOutput } from "../../sheets/inputs/chart";
import { cardRows, writingOn } from "../cards";
import type { EntryOf } from "../document";
import { ofKind, placeIn } from "../place-in";
import type { JobView } from "../view";

/** Steps that read volts and ohms; of an accessory, the one that reads its supply. */
const charts: readonly string[] = ["09", "10", "11"];
const atAccessory = "31d";

/**
 * Whether work can change what is read at a socket: work at one stage is of its own tubes, at an accessory of the accessories'. What an output tube draws
 * moves B+, and with it all others; so does all other work.
 */
function touches(view: JobView, { makes, subject }: EntryOf<"work">, tube: string): boolean {
  const accessories = new Set(view.set.stages.flatMap((s) => (s.kind === "accessory" ? [s.id] : [])));
  const isAccessory = subject.startsWith("fittings.") || accessories.has(subject.replace(/^stages\./, ""));
  if (!makes.some((d) => charts.includes(d.target) || (isAccessory && d.target === atAccessory))) return false;
  const there = view.set.tubes.filter((t) =>
    subject.startsWith("fittings.") ? accessories.has(t.stage) : `stages.${t.stage}` === subject,
  );
  const own = there.map((t) => Math.floor(socketNumber(t.socket) ?? -1));
  const socket = socketNumber(tube);
  const movesAll = there.length === 0 ? !isAccessory : there.some((t) => isOutput(t));
  return movesAll || socket === undefined || own.includes(Math.floor(socket + 1e-9));
}
/**
 * Works in force that can have changed what a row of a chart reads.
 *
 * @param view the job
 * @param tube the first cell of the row, such as `V4 first IF`
 * @returns places among the entries in force, in order
 * @source house rule: a change at one stage is proved at that stage, a change of the supply everywhere
 */
export const worksOnRow = (view: JobView, tube: string): readonly number[] =>
  ofKind(view.inForce, "work").flatMap((e) => (touches(view, e, tube) ? [placeIn(view.inForce, e.id)] : []));

/**
 * Readings of a chart that are older than work which can have changed them: to be read again, and no others.
 *
 * @param view the job
 * @param card its id
 * @returns fields such as `row 4: Measured V`
 * @source worksOnRow
 */
export function readAgain(view: JobView, card: string): ReadonlySet<string> {
  const column = card === "voltage-chart" ? "Measured V" : card === "resistance-chart" ? "Measured Ω" : undefined;
  if (column === undefined) return new Set();
  const written = writingOn(view, card);
  const due = cardRows(view, card).flatMap(({ number, cells }) => {
    const field = `row ${number}: ${column}`;
    const at = placeIn(view.inForce, written.get(field)?.entry);
    return at >= 0 && worksOnRow(view, cells.Tube ?? "").some((w) => w > at) ? [field] : [];
  });
  return new Set(due);
}

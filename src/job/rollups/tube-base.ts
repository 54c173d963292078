import { socketName, socketNumber } from "../../set/sockets";
import { electrodeOf, electrodes } from "../../sheets/inputs/chart";
import { bulbOf } from "../../standards/tube-bulbs";
import { cardRows } from "../cards";
import type { Form } from "../forms";
import type { JobView } from "../view";
import { asIf } from "./card-judged";
import { unitOf, withUnit } from "./read-points";

/** One pin of a tube's base: what ends there, what was read there. */
export interface BasePin {
  readonly number: number;
  /** such as `plate`, `grid B`; empty where nothing of DC stands at it */
  readonly electrode: string;
  /** with its unit */
  readonly read: string;
}
/** The base of the tube at a socket, as it is seen from below with the chassis turned over. */
export interface TubeBase {
  readonly socket: string;
  readonly type: string;
  readonly pins: readonly BasePin[];
}
const halves = ["A", "B", "C"];

/**
 * The base of the tube that a row of a chart is of, with what is written at its pins; what is only being typed among it.
 *
 * @param view the job
 * @param form the card
 * @param draft what is typed and not kept yet, by field
 * @param row number of the row
 * @returns the base; undefined where the row names no tube of the set, or its basing is not in the table
 * @source standards/tube-bulbs.ts
 */
export function tubeBaseOf(view: JobView, form: Form, draft: Readonly<Record<string, string>>, row: number): TubeBase | undefined {
  const heading = form.rowsFrom === "tubes" ? form.reads?.[0] : undefined;
  const rows = heading === undefined ? [] : cardRows(asIf(view, form, draft), form.id);
  const first = form.columns?.[0] ?? "";
  const said = rows.find((r) => r.number === row)?.cells[first] ?? draft[`row ${row}: ${first}`] ?? view.set.tubes[row - 1]?.socket ?? "";
  const socket = Math.floor(socketNumber(said) ?? Number.NaN);
  const tube = view.set.tubes.find((t) => Math.floor(socketNumber(t.socket) ?? Number.NaN) === socket);
  const bulb = tube && bulbOf(tube.type);
  if (!tube || !bulb || bulb.contactCount === 0) return undefined;
  const own = rows.filter((r) => Math.floor(socketNumber(r.cells[first] ?? "") ?? Number.NaN) === socket);
  const pins = Array.from({ length: bulb.contactCount }, (_, i): BasePin => {
    const at = bulb.pins.get(i + 1);
    const cells = own.find((r) => Number(r.cells.Pin) === i + 1)?.cells;
    const written = electrodes[electrodeOf(cells?.Electrode ?? "")];
    const electrode = at ? `${at.electrode}${at.unit === undefined ? "" : ` ${halves[at.unit]}`}` : written === "other" ? "" : written;
    return { number: i + 1, electrode, read: heading === undefined ? "" : withUnit(cells?.[heading] ?? "", unitOf(heading)) };
  });
  return { socket: socketName(socket), type: tube.type, pins };
}

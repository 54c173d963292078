import { cell } from "../../set/columns";
import { socketNumber } from "../../set/sockets";
import { electrodeOf, electrodes } from "../../sheets/inputs/chart";
import { placeOf } from "../../sheets/volts/findings";
import { cardRows, firstCells, writingOn } from "../cards";
import type { Form } from "../forms";
import { placeLabel } from "../places";
import type { JobView } from "../view";
import { readAgain } from "./again";
import { expectedOnChart } from "./card-judged";

/** One thing that is read at the set and typed on a card: where the probe goes, in what unit, what it should be, what stands there. */
export interface ReadPoint {
  /** the field of the card that it is typed in */
  readonly field: string;
  /** such as `V3 pin 5, plate` */
  readonly at: string;
  /** what is read there, as the card's heading has it: `Measured V` */
  readonly heading: string;
  /** unit that a bare figure has; empty where the heading shows none */
  readonly unit: string;
  /** the stage that it belongs to, in words; empty where the card doesn't say */
  readonly stage: string;
  readonly socket?: string;
  readonly pin?: number;
  /** what a sound one would read, with its unit */
  readonly due?: string;
  readonly stands: string;
  /** whether work since can have changed it */
  readonly again: boolean;
}

/** Units that a heading may show. */
const units = ["MΩ", "kΩ", "Ω", "µV", "mA", "V", "A", "W", "dBm", "dB", "%"];
export const unitOf = (heading: string): string =>
  heading === "Line volts" ? "V" : (units.find((u) => heading.split(/[\s,]+/).includes(u)) ?? "");

/** A figure as it stands on a card, with the unit that its heading shows where it is bare. */
export const withUnit = (text: string, unit: string): string => (unit !== "" && /^[+−-]?[\d.,]+$/.test(text) ? `${text} ${unit}` : text);

/** Tube and pin of a row, where it names them. */
function pinOf(
  cells: Readonly<Record<string, string>>,
  first: string,
): { readonly socket: number; readonly pin: number | undefined } | undefined {
  const socket = socketNumber(cells[first] ?? "");
  if (socket === undefined) return undefined;
  const pin = Number(cells.Pin);
  return { socket, pin: Number.isInteger(pin) && pin > 0 ? pin : undefined };
}
function pointOfRow(
  view: JobView,
  form: Form,
  number: number,
  cells: Readonly<Record<string, string>>,
): Omit<ReadPoint, "field" | "heading" | "unit" | "stands" | "again"> {
  const first = form.columns?.[0] ?? "";
  const at = pinOf(cells, first);
  const onTubes = form.rowsFrom === "tubes" && at !== undefined;
  const tube = onTubes ? view.set.tubes.find((t) => Math.floor(socketNumber(t.socket) ?? -1) === Math.floor(at.socket + 1e-9)) : undefined;
  const said = cells.Electrode ?? "";
  const electrode = electrodes[electrodeOf(said)];
  const beside = [electrode === "other" ? said : electrode, cells["To chassis or B+"] ? `to ${cells["To chassis or B+"]}` : ""].filter(
    (t) => t !== "",
  );
  const named = onTubes ? [placeOf({ socket: at.socket, pin: cell(at.pin ?? Number.NaN) }), ...beside].join(", ") : (cells[first] ?? "");
  return {
    at: named === "" ? `row ${number}` : named,
    stage: tube ? placeLabel(view.set, `stages.${tube.stage}`) : "",
    ...(tube ? { socket: tube.socket } : {}),
    ...(at?.pin === undefined ? {} : { pin: at.pin }),
  };
}

/**
 * What is read at the set for a card, in the order in which it is typed: figures by themselves first, then the table down each of its columns.
 *
 * @param view the job
 * @param form the card
 * @returns points; none for a card that is written at the desk
 * @source house frame
 */
export function readPoints(view: JobView, form: Form): readonly ReadPoint[] {
  const written = writingOn(view, form.id);
  const stands = (field: string): string => written.get(field)?.text ?? "";
  const due = readAgain(view, form.id);
  const single = form.fields.flatMap((field): ReadPoint[] => {
    const unit = unitOf(field);
    return unit === "" ? [] : [{ field, at: field, heading: form.title, unit, stage: "", stands: stands(field), again: false }];
  });
  const seeds = firstCells(view, form);
  const rows = new Map(cardRows(view, form.id).map((r) => [r.number, r.cells]));
  const count = Math.max(seeds.length, ...rows.keys(), 0);
  const expected = expectedOnChart(view, form);
  const down = (form.reads ?? []).flatMap((heading) =>
    Array.from({ length: count }, (_, i) => i + 1).flatMap((number): ReadPoint[] => {
      const first = form.columns?.[0] ?? "";
      const cells = rows.get(number) ?? { [first]: seeds[number - 1] ?? "" };
      if ((cells[first] ?? "") === "") return [];
      const field = `row ${number}: ${heading}`;
      const own = expected.get(field);
      return [
        {
          ...pointOfRow(view, form, number, cells),
          field,
          heading,
          unit: unitOf(heading),
          stands: stands(field),
          again: due.has(field),
          ...(own ? { due: own } : {}),
        },
      ];
    }),
  );
  return [...single, ...down];
}

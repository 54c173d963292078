import { withBareDoubt } from "../../../units/bare";
import type { Dimension } from "../../../units/dimensions";
import { parseQuantity } from "../../../units/parse";
import { printQuantity } from "../../../units/print";
import type { Quantity } from "../../../units/quantity";
import { cardRows, writingOn } from "../../cards";
import { placeIn } from "../../place-in";
import { entryOfReading } from "../../readings-in";
import type { JobView } from "../../view";

/** A figure as it was measured once. */
export interface Measured {
  readonly quantity: Quantity;
  readonly dimension: Dimension;
  readonly text: string;
  readonly method: string;
  readonly conditions: string;
  /** whether work on the set was recorded after it was taken */
  readonly before: boolean;
}
/** A figure as found and as left. */
export interface Pair {
  readonly figure: string;
  readonly where: string;
  found?: Measured;
  left?: Measured;
  /** what stands in the card and can't be read as a figure */
  unread?: string;
}
/** Words of a card, alike where only case and blanks differ. */
export const like = (s: string): string => s.toLowerCase().replace(/\s+/g, " ").replace(/,\s*/g, ", ").trim();

/** Whether work on the set was recorded after an entry. */
const workSince = (view: JobView, entry: string): boolean => placeIn(view.inForce, view.works.at(-1)?.id) > placeIn(view.inForce, entry);
/** Dimensions that a figure of the record may have, by its name; the first that its value can be read as. */
const dimensionsOf = (figure: string): readonly Dimension[] =>
  /sensitiv|s9/i.test(figure)
    ? ["voltage", "dbm"]
    : /width|centre|dial|drift|frequency|image at/i.test(figure)
      ? ["frequency"]
      : /reject|hum|noise|ripple|response|avc|flat|gain/i.test(figure)
        ? ["decibel"]
        : ["decibel", "frequency", "voltage", "power", "time", "fraction", "ratio"];
function readValue(text: string, figure: string): Pick<Measured, "quantity" | "dimension" | "text"> | undefined {
  for (const dimension of dimensionsOf(figure)) {
    const r = parseQuantity(text, dimension, "Value");
    if (!r.ok) continue;
    const said: Quantity = { value: r.value.value, spread: r.value.spread, origin: "measured", source: "performance sheet" };
    return { dimension, quantity: withBareDoubt(said, { dimension }, { text }), text: printQuantity(said.value, said.spread, dimension) };
  }
  return undefined;
}
/**
 * What was measured, as found and as left: from sweeps, and from the performance sheet.
 *
 * @param view the job
 * @returns pairs, in the order in which they were first met
 * @source house frame
 */
export function pairsOf(view: JobView): Pair[] {
  const out: Pair[] = [];
  const pairFor = (figure: string, where: string): Pair => {
    const had = out.find((p) => like(p.figure) === like(figure) && like(p.where) === like(where));
    if (had) return had;
    const made: Pair = { figure, where };
    out.push(made);
    return made;
  };
  const entryOf = entryOfReading(view.inForce);
  for (const r of view.readings)
    for (const f of r.figures) {
      if (!f.quantity || !f.dimension || r.as !== "if-sweep" || /^(points|level at the peak)$/.test(f.name)) continue;
      const pair = pairFor(f.name, "IF strip");
      const m: Measured = {
        quantity: f.quantity as Quantity,
        dimension: f.dimension as Dimension,
        text: f.text,
        method: "swept",
        conditions: `${r.thermal}${r.lineVoltage ? `, line ${printQuantity(r.lineVoltage.value, (r.lineVoltage as Quantity).spread, "voltage")}` : ""}${r.instrument ? `, ${r.instrument}` : ""}${r.invented ? ", INVENTED" : ""}`,
        before: workSince(view, entryOf.get(r.id) ?? ""),
      };
      if (r.state === "as-found") pair.found = m;
      else pair.left = m;
    }
  const written = writingOn(view, "performance");
  for (const { number, cells: row } of cardRows(view, "performance")) {
    const pair = pairFor(row.Figure ?? "", row["Band or place"] ?? "");
    const read = readValue(row.Value ?? "", row.Figure ?? "");
    if (!read) {
      pair.unread = row.Value ?? "";
      continue;
    }
    const m: Measured = {
      ...read,
      method: row["Method and definition"] ?? "",
      conditions: row.Conditions ?? "",
      before: workSince(view, written.get(`row ${number}: Value`)?.entry ?? ""),
    };
    if (/found/i.test(row["As found or as left"] ?? "")) pair.found = m;
    else pair.left = m;
  }
  return out;
}

import { writingOn } from "../../job/cards";
import type { Entry } from "../../job/document";
import { placeLabel } from "../../job/places";
import { sayEntry } from "../../job/say-entry";
import { declaredAt } from "../../job/slots";
import type { JobView } from "../../job/view";
import type { SetDescription } from "../../set/describe";
import { printQuantity } from "../../units/print";

/** What an entry put where: each path with what stands there since, as `fettle set` takes it. */
function recordedAt(e: Entry): string {
  if (e.kind === "fact") return `${e.path}=${e.value}`;
  if (e.kind === "rows") return `${e.path}: ${e.rows.length} ${e.rows.length === 1 ? "row" : "rows"}`;
  if (e.kind !== "values") return "";
  return Object.entries(e.values)
    .map(([path, q]) => {
      const at = declaredAt(path);
      return `${path}${at?.kind === "quantity" ? `=${printQuantity(q.value, q.spread, at.dimension)}` : ""}, ${q.origin}`;
    })
    .join("; ");
}

/** An entry in a few words: what it is of, and why or with what note; of a card all that it wrote, of values each path, so that what fell can be read. */
export function describeEntry(set: SetDescription, e: Entry): string {
  switch (e.kind) {
    case "form":
      return `${e.form}: ${Object.entries(e.fields)
        .map(([field, text]) => `${field} ${text === "" ? "emptied" : `"${text}"`}`)
        .join("; ")}`;
    case "fact":
    case "rows":
    case "values":
      return e.why === "" ? recordedAt(e) : `${recordedAt(e)} (${e.why})`;
    case "done":
      return `step ${e.step}, ${sayEntry(set, e)}`;
    case "work":
      return `${sayEntry(set, e)}${e.subject === "" ? "" : `, at ${placeLabel(set, e.subject)}`}`;
    default:
      return sayEntry(set, e);
  }
}
/** Whether an entry stands: superseded where it was taken back or each field that it wrote on a card was written over since, in part where some were. */
export function standing(view: JobView, e: Entry): string {
  if (view.superseded.has(e.id)) return "superseded";
  if (e.kind !== "form") return "";
  const own = Object.entries(e.fields).filter(([, text]) => text !== "");
  const stands = writingOn(view, e.form);
  const fell = own.filter(([field]) => stands.get(field)?.entry !== e.id);
  return fell.length === 0 ? "" : fell.length === own.length ? "superseded" : "superseded in part";
}

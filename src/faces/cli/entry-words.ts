import { writingOn } from "../../job/cards";
import type { Entry } from "../../job/document";
import { declaredAt } from "../../job/slots";
import type { JobView } from "../../job/view";
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

/** An entry in a few words: why it was made, its note, or what it is of; of a card all that it wrote, so that what fell can be read. */
export function describeEntry(e: { readonly kind: string; readonly [k: string]: unknown }): string {
  const r = e as Record<string, unknown> & {
    reading?: { id: string; file: { name: string } };
    estimate?: { id: string };
    instrument?: { id: string };
  };
  if (e.kind === "form")
    return `${String(r.form)}: ${Object.entries(r.fields as Readonly<Record<string, string>>)
      .map(([field, text]) => `${field} ${text === "" ? "emptied" : `"${text}"`}`)
      .join("; ")}`;
  const at = recordedAt(e as Entry);
  const why = String(r.why ?? "");
  if (at !== "") return why === "" ? at : `${at} (${why})`;
  return (
    String(r.why ?? r.note ?? r.reading?.file.name ?? r.estimate?.id ?? r.instrument?.id ?? r.form ?? "") || String(r.work ?? r.step ?? "")
  );
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

import { dayInWords } from "../../../units/day";
import { printKnown, printValue } from "../../../units/print";
import type { Quantity } from "../../../units/quantity";
import { closed, lowerFirst, upperFirst } from "../../../units/sentence";
import { rowsOn } from "../../cards";
import type { EntryOf } from "../../document";
import { type Fault, faultsOf, isOpenFault } from "../../faults/faults";
import { partKindById } from "../../mending/kinds";
import { ofKind } from "../../place-in";
import { placeLabel } from "../../places";
import { workKindById } from "../../ripple";
import type { JobView } from "../../view";

/** A fault as its owner reads of it. */
export interface WrongLine {
  readonly where: string;
  /** as it showed */
  readonly showed: string;
  readonly cause: string;
  /** what became of it */
  readonly became: string;
}
/** A part that went and the one that came in. */
export interface ExchangedLine {
  readonly part: string;
  readonly where: string;
  readonly old: string;
  readonly came: string;
  readonly why: string;
}
export interface DoneLine {
  readonly day: string;
  readonly what: string;
}

function becameOf(f: Fault): string {
  const at = (does: string): string => dayInWords(f.acts.filter((a) => a.does === does).at(-1)?.at ?? "");
  if (f.state === "closed" || f.state === "proved") {
    const [mended, proved] = [at("mend"), at("prove") || at("close")];
    return mended === "" ? `Proved ${proved}.` : mended === proved ? `Mended and proved ${proved}.` : `Mended ${mended}, proved ${proved}.`;
  }
  if (f.state === "left") return `Left: ${closed(f.reason ?? "")}`;
  if (f.state === "mended") return `Mended ${at("mend")}; not proved yet.`;
  return f.state === "open again" ? "Came back; not mended." : "Not mended yet.";
}

/** What caused it: as it was said, else by the part that cured it. */
function causeOf(view: JobView, f: Fault): string {
  if (f.cause) return closed(upperFirst(f.cause));
  if (isOpenFault(f)) return "Not found yet.";
  const parts = ofKind(view.inForce, "part").flatMap((e) => (e.fault === f.id ? [partKindById(e.part)?.title ?? e.part] : []));
  return parts.length > 0 ? `Cured by changing: ${parts.map(lowerFirst).join(", ")}.` : "";
}
/**
 * What was wrong, fault by fault.
 *
 * @param view the job
 * @returns in the order in which they were noticed
 * @source house frame
 */
export const wrongOf = (view: JobView): readonly WrongLine[] =>
  faultsOf(view).map((f) => ({
    where: upperFirst(f.label),
    showed: closed(upperFirst(f.words)),
    cause: causeOf(view, f),
    became: becameOf(f),
  }));

/**
 * A part as marked, as measured and as rated.
 *
 * @param p the part; nothing said of none
 * @param kind of part, such as `cathode-resistor`
 * @returns its words
 * @source house frame
 */
export function partSaid(p: EntryOf<"part">["out"] | undefined, kind: string): string {
  if (!p) return "";
  const dimension = partKindById(kind)?.value;
  const print = (q: unknown, of: string): string => {
    const known = q as Quantity | undefined;
    if (!known || !dimension) return "";
    // as it is marked, or with the digits that it was measured to
    return `${printKnown(known, dimension)}${of}`;
  };
  const rated = p.rated as Quantity | undefined;
  return [p.words, print(p.value, " marked"), print(p.measured, " measured"), rated ? printValue(rated.value, "voltage") : ""]
    .filter((t) => t !== "")
    .join(", ");
}

/**
 * Parts that went and came in: those of the mends, and those of the card of parts replaced that no mend names.
 *
 * @param view the job
 * @returns in the order in which they were recorded
 * @source house frame
 */
export function exchangedOf(view: JobView): readonly ExchangedLine[] {
  // how it showed stands with the fault itself: here its name is enough
  const causes = new Map(faultsOf(view).map((f) => [f.id, f.cause ?? `cured the fault at ${f.label}`]));
  const mended = ofKind(view.inForce, "part").map(
    (e): ExchangedLine => ({
      part: `${partKindById(e.part)?.title ?? e.part}${e.label ? ` ${e.label}` : ""}`,
      where: placeLabel(view.set, e.place),
      old: partSaid(e.out, e.part) || "not noted",
      came: e.came ? partSaid(e.came, e.part) : "nothing",
      why: e.fault ? (causes.get(e.fault) ?? "") : "",
    }),
  );
  const named = new Set(ofKind(view.inForce, "part").map((e) => e.label.trim().toUpperCase()));
  const carded = rowsOn(view, "parts").flatMap((r): ExchangedLine[] =>
    named.has((r.Part ?? "").trim().toUpperCase()) || !r["New value and rating"]
      ? []
      : [
          {
            part: r.Part ?? "",
            where: r.Function ?? "",
            old: [r["Old value and rating"], r["Old, measured"] ? `${r["Old, measured"]} measured` : ""].filter((t) => t).join(", "),
            came: r["New value and rating"],
            why: r.Reason ?? "",
          },
        ],
  );
  return [...mended, ...carded];
}

/**
 * Work that changed the set, day by day; the changing of parts stands in its own table.
 *
 * @param view the job
 * @returns in the order in which it was recorded
 * @source house frame
 */
export function doneOf(view: JobView): readonly DoneLine[] {
  const ofParts = new Set(ofKind(view.inForce, "part").flatMap((e) => (e.partOf ? [e.partOf] : [])));
  return view.works
    .filter((w) => !ofParts.has(w.id))
    .map((w) => ({
      day: dayInWords(w.at),
      what: closed(
        `${workKindById(w.work)?.title ?? w.work}${w.subject && w.subject !== "set" ? `, ${placeLabel(view.set, w.subject)}` : ""}${w.note ? `: ${w.note}` : ""}`,
      ),
    }));
}

import { useDeferredValue, useMemo, useState } from "preact/compat";
import { cardIssues, firstCells, offeredCells, writtenOn } from "../../../job/cards";
import { type Form, rowOfField } from "../../../job/forms";
import { asIf, type CellSaid, judgedCells } from "../../../job/rollups/card-judged";
import type { JobView } from "../../../job/view";
import type { Issue } from "../../../units/issue";
import { api, heldSays } from "../api";
import { type Held, heldKey } from "../held";
import { useKept } from "../kept";
import { issuesOf } from "../task";

type Fields = Readonly<Record<string, string>>;
/** A card as it is being written. */
export interface CardDraft {
  readonly before: Fields;
  readonly draft: Fields;
  readonly value: (field: string) => string;
  readonly put: (fields: Fields) => void;
  /** what was expected, by field, where it can't be read */
  readonly wrong: ReadonlyMap<string, string>;
  /** what chart, meter and limits say of a cell, as it is typed */
  readonly said: ReadonlyMap<string, CellSaid>;
  readonly seeds: readonly string[];
  readonly rows: readonly string[];
  readonly keep: () => Promise<boolean>;
  readonly issues: readonly Issue[];
  readonly told: string;
}

/** What is held of a card, by field: it stands there as if it were recorded, and the head of the page says that it is not yet. */
function heldOn(held: readonly Held[], job: string, form: string): Fields {
  const own = held
    .filter((h) => h.path === `api/jobs/${encodeURIComponent(job)}/fill`)
    .map((h) => JSON.parse(h.body) as { card: string; fields: Fields });
  return Object.assign({}, ...own.filter((o) => o.card === form).map((o) => o.fields));
}
/** What a row is about that is begun now, where the card offers something else in it than the set's own order would have. */
function aboutOf(view: JobView, form: Form, seeds: readonly string[], there: Fields, typed: Fields): Fields {
  const [first] = form.columns ?? [];
  const own = firstCells(view, form);
  return Object.fromEntries(
    Object.keys(typed).flatMap((field) => {
      const row = rowOfField(field);
      const at = `row ${row}: ${first}`;
      const seed = row === undefined ? undefined : seeds[row - 1];
      return seed === undefined || seed === own[(row ?? 0) - 1] || there[at] !== undefined || seed === "" ? [] : [[at, seed] as const];
    }),
  );
}
/** So many rows are offered at least. */
const leastRows = 4;
/** A card's draft: kept in this browser until it is kept in the job, each cell judged as it is typed. */
export function useCard(view: JobView, form: Form, name: string, reload: () => void): CardDraft {
  const written = useMemo(() => writtenOn(view, form.id), [view, form]);
  const [draft, setDraft] = useKept<Record<string, string>>(`card:${name}:${form.id}`, {});
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [told, setTold] = useState("");
  const [held] = useKept<readonly Held[]>(heldKey, []);
  const before = useMemo(() => ({ ...written, ...heldOn(held, name, form.id) }), [written, held, name, form]);
  const seeds = useMemo(() => (form.columns ? offeredCells(asIf(view, form, before), form) : []), [view, form, before]);
  const used = form.columns ? Math.max(0, ...Object.keys({ ...before, ...draft }).map((k) => Number(/^row (\d+)/.exec(k)?.[1] ?? 0))) : 0;
  const count = form.columns ? Math.max(seeds.length, used + 1, leastRows) : 0;
  // each cell is judged as it is typed; one that can't be read stays in the draft and costs the others nothing
  const wrong = new Map(cardIssues(form.id, draft).map((i) => [i.path, i.expected]));
  const lagging = useDeferredValue(draft);
  const said = useMemo(() => judgedCells(view, form, lagging), [view, form, lagging]);
  const keep = async (): Promise<boolean> => {
    try {
      // each field by itself, so that what somebody else writes on this card meanwhile stays; the same figure read again counts as read again
      const fields = Object.fromEntries(Object.entries(draft).filter(([k, v]) => !wrong.has(k) && (v !== "" || (before[k] ?? "") !== "")));
      const some = Object.keys(fields).length > 0;
      const sent = some ? await api.append(name, [{ kind: "form", form: form.id, fields }]) : { held: false };
      setDraft(Object.fromEntries(Object.entries(draft).filter(([k]) => wrong.has(k))));
      setIssues([]);
      setTold(
        sent.held
          ? (heldSays(sent) ?? "")
          : wrong.size > 0
            ? "Kept, except what is marked: correct it here."
            : "Kept. What was there before stays in the history.",
      );
      reload();
      return true;
    } catch (e) {
      const found = issuesOf(e);
      if (found.length > 0 && found.every((i) => i.code === "nothing-new")) {
        setDraft({});
        setIssues([]);
        setTold("Nothing new on it: what it says is kept already.");
        return true;
      }
      setIssues(found);
      return false;
    }
  };
  return {
    before,
    draft,
    value: (field) => draft[field] ?? before[field] ?? "",
    put: (fields) => setDraft({ ...draft, ...aboutOf(view, form, seeds, { ...before, ...draft }, fields), ...fields }),
    wrong,
    said,
    seeds,
    rows: Array.from({ length: count }, (_, r) => `row ${r + 1}`),
    keep,
    issues,
    told: told || (Object.keys(draft).length > 0 ? "Not kept yet; a reload loses nothing of it." : ""),
  };
}

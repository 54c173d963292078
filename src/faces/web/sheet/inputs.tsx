import { memo } from "preact/compat";
import type { Answer } from "../../../ask/answered";
import type { Question } from "../../../sheets/question";
import { Knob, short } from "./knob";
import type { Knobbed } from "./knobbed";
import { foremostResult } from "./number";
import { RowsInput } from "./rows-input";
import type { WhatIf } from "./use-what-if";

/** How many inputs stand open at most. */
const most = 5;
/** A share worth a place among the open ones though the question doesn't begin with it. */
const worth = 0.1;

/** How much of the uncertainty of the largest figure each input accounts for. */
export function sharesOf(sheet: Question, answer: Answer): ReadonlyMap<string, number> {
  const first = foremostResult(sheet, answer);
  const shares = first === undefined ? [] : answer.results[first].shares;
  return new Map(shares.flatMap((s) => (s.inputs.length === 1 ? [[s.inputs[0], s.share] as const] : [])));
}

/** The inputs that stand open: those that matter most first, then those that the question begins with. */
export function foremostInputs<T extends { readonly path: string }>(
  sheet: Question,
  all: readonly T[],
  shares: ReadonlyMap<string, number>,
): readonly T[] {
  const share = (q: T): number => shares.get(q.path) ?? 0;
  const open = all.filter((q) => sheet.first.includes(q.path) || share(q) >= worth);
  return [...open].sort((a, b) => share(b) - share(a)).slice(0, most);
}

/** Whether a choice is people's safety: it must be recorded, and can't be tried. */
const recordedOnly = (sheet: Question, path: string): boolean => {
  const input = sheet.inputs[path];
  return input?.kind === "choice" && input.recordedOnly !== undefined;
};
/** A choice in words: `as-it-stands` is a name for files, `full-wave` is the trade's own. */
const choiceSaid = (o: string): string =>
  /^[a-z]+(?:-[a-z]+)+$/.test(o) && !/-(?:wave|wire)$/.test(o) ? o.replaceAll("-", " ").replace(/^q /, "Q ") : o;
/** What is chosen of a few; what must be recorded stands among the folded ones. */
function Choices({
  sheet,
  answer,
  of,
  recorded,
}: {
  readonly sheet: Question;
  readonly answer: Answer;
  readonly of: WhatIf;
  readonly recorded: boolean;
}) {
  return answer.choices
    .filter((c) => recordedOnly(sheet, c.path) === recorded)
    .map((c) => {
      return recorded ? (
        <div key={c.path} className="choice-in">
          <span className="name">{c.meaning}</span>
          <span className="value">
            {choiceSaid(c.value)} <span className="quiet">(recorded under Describe the set)</span>
          </span>
        </div>
      ) : (
        <label key={c.path} className="choice-in">
          <span className="name">{short(c.meaning)}</span>
          <select value={of.tried[c.path] ?? c.value} onChange={(e) => of.put(c.path, e.currentTarget.value)}>
            {c.options.map((o) => (
              <option key={o} value={o}>
                {choiceSaid(o)}
              </option>
            ))}
          </select>
        </label>
      );
    });
}

interface InputsProps {
  readonly sheet: Question;
  readonly answer: Answer;
  readonly of: WhatIf;
}
/** What the answer rests on, to be turned: the few inputs that matter first, with how much of the uncertainty each accounts for; the rest folded. The one in hand follows the hand, the others when it rests. */
export const Inputs = memo(InputsNow, (_, b) => b.of.dragging);
function InputsNow({ sheet, answer, of }: InputsProps) {
  const all: readonly Knobbed[] = [...answer.quantities, ...answer.absent];
  const onRecord = of.record ? [...of.record.quantities, ...of.record.absent] : all;
  // the order stays while the hand moves: it follows the answer on record
  const shares = sharesOf(sheet, of.record ?? answer);
  const open = foremostInputs(sheet, all, shares);
  const rest = all.filter((q) => !open.includes(q));
  const assumed = rest.filter((q) => "quantity" in q && q.quantity.origin === "assumed").length;
  const knob = (q: Knobbed) => {
    const input = sheet.inputs[q.path];
    const share = shares.get(q.path);
    return (
      <Knob
        key={q.path}
        q={q}
        record={onRecord.find((r) => r.path === q.path)}
        limits={input?.kind === "quantity" ? input : {}}
        tried={of.tried[q.path]}
        put={of.put}
        hand={of.hand}
        share={share !== undefined && share >= 0.01 ? share : undefined}
      />
    );
  };
  return (
    <div className="inputs">
      {shares.size > 0 && <p className="quiet sharesay">The lengths: how much of the uncertainty each accounts for.</p>}
      {open.map(knob)}
      <Choices sheet={sheet} answer={answer} of={of} recorded={false} />
      {answer.rows.map((t) => (
        <RowsInput key={t.path} rows={t} tried={of.tried[t.path]} setTried={(v) => of.put(t.path, v)} />
      ))}
      {rest.length > 0 && (
        <details className="restinputs">
          <summary>
            {rest.length} more {rest.length === 1 ? "input" : "inputs"}, {assumed === 0 ? "none" : assumed} of them assumed
          </summary>
          <Choices sheet={sheet} answer={answer} of={of} recorded={true} />
          {rest.map(knob)}
        </details>
      )}
    </div>
  );
}

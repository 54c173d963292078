import { memo, useEffect, useState } from "preact/compat";
import type { Answer } from "../../../ask/answered";
import { heardIn, paperBeside } from "../../../desk/questions";
import { type JobView, subjectLabel, subjectsIn } from "../../../job/view";
import type { Question } from "../../../sheets/question";
import { isOpen } from "../../../standards/cautions";
import { hasValues } from "../../figures/drawing";
import { api } from "../api";
import { Pinned } from "../bench-bar";
import { Drawn } from "../drawn";
import { Plot, StripsPicture } from "../figure/plot";
import { useMedia } from "../figure/use-width";
import { jobLink } from "../links";
import { here } from "../opened";
import { FindingBox, Issues } from "../parts";
import { Theory } from "../theory/theory";
import { Again } from "./again";
import { Following, type Follows, Told, useFollowing } from "./following";
import { Inputs } from "./inputs";
import { foremostResult, Numbers } from "./number";
import { Trying } from "./trying";
import { useWhatIf, type WhatIf } from "./use-what-if";
import { MeasureNext, Values } from "./values";

interface Shown {
  readonly view: JobView;
  readonly sheet: Question;
  readonly answer: Answer;
  readonly of: WhatIf;
}
/** Pictures of an answer, in order: the first belongs in sight. */
function picturesOf({ view, sheet, answer, of }: Shown, small: boolean): readonly React.ReactNode[] {
  const plots =
    answer.missing.length > 0
      ? []
      : sheet.figures
          .filter((f) => hasValues(f, answer))
          .map((f, i) => (
            <Plot
              key={f.id}
              spec={f}
              answer={answer}
              view={view}
              small={small && i === 0}
              moving={of.dragging}
              {...(of.trying && of.record ? { job: of.record } : {})}
            />
          ));
  const strips = answer.strips.map((s) => <StripsPicture key={s.id} of={s} example={answer.unread.length > 0} />);
  // the curve that moves with the hand first, then the very spot where the hands go
  const spots = answer.drawn.map((d) => <Drawn key={d.id} of={d} moving={of.dragging} />);
  return [...plots.slice(0, 1), ...spots, ...plots.slice(1), ...strips];
}

/** What is to be done, each step with its cautions where the state turns open. */
const ToDo = ({ answer }: { readonly answer: Answer }) => (
  <section className="todo" aria-label="What to do">
    <h2>What to do</h2>
    {answer.findings.map((f) => (
      <FindingBox key={f.id} of={f} />
    ))}
  </section>
);

/** What stands where there is no answer: that it is worked out, or that there is none and why. */
const waits = (of: WhatIf): string =>
  of.issues.length > 0 ? "No answer while this stands:" : of.working ? "Working it out…" : "Stopped before there was an answer.";
/** The answer as a sentence, and what hinders it. */
const Says = ({ answer, of }: { readonly answer: Answer | undefined; readonly of: WhatIf }) => (
  <>
    <Told
      className={of.issues.length > 0 ? "headline stale" : "headline"}
      live="polite"
      now={`${of.issues.length > 0 && answer ? "Leaving out what is wrong below: " : ""}${answer?.headline ?? waits(of)}`}
      says={(a) => a.headline}
    />
    {of.working && answer && (
      <p className="working">
        Working out the full answer…{" "}
        <button type="button" className="asword" onClick={of.stop}>
          Stop
        </button>
      </p>
    )}
    <Issues of={of.issues} />
  </>
);

/** The question, and what it is about where there is more than one of it. */
const Asked = ({
  view,
  sheet,
  at,
  setAt,
}: {
  readonly view: JobView;
  readonly sheet: Question;
  readonly at: string;
  readonly setAt: (at: string) => void;
}) => {
  const subjects = subjectsIn(view, sheet);
  return (
    <div className="asked">
      <h1>{sheet.question}</h1>
      {subjects.length > 1 && (
        <label className="about">
          About
          <select value={at} onChange={(e) => setAt(e.currentTarget.value)}>
            {subjects.map((s) => (
              <option key={s} value={s}>
                {subjectLabel(view.set, s)}
              </option>
            ))}
          </select>
        </label>
      )}
    </div>
  );
};

interface BelowProps {
  readonly shown: Shown;
  readonly name: string;
  readonly todo: boolean;
  /** pictures that are in sight above already */
  readonly inSight: number;
  readonly small: boolean;
}
/** What stands below the instrument: what to do where it isn't beside it, the other pictures, every value, how it is worked out. It follows when the hand rests. */
const Below = memo(BelowNow, (_, b) => b.shown.of.dragging);
function BelowNow({ shown, name, todo, inSight, small }: BelowProps) {
  const { sheet, answer, of } = shown;
  const pictures = picturesOf(shown, small).slice(inSight);
  const paper = paperBeside(sheet);
  return (
    <div className="below">
      {todo && <ToDo answer={answer} />}
      {pictures.length > 0 && <div className="also">{pictures}</div>}
      {here && heardIn(sheet.id) && (
        <p>
          <a href={jobLink(name, "hear", sheet.id)}>Hear it first</a>: an invented band through this strip, as it is and as it would be
        </p>
      )}
      {paper && (
        <p>
          <a href={api.paperUrl(name, paper.path)} download={`${name}, ${paper.file}`}>
            {paper.says}
          </a>
          , as the job has it
        </p>
      )}
      <Values sheet={sheet} answer={answer} record={of.trying ? of.record : undefined} />
      <MeasureNext answer={answer} />
      <Theory id={sheet.id} />
      <Again answer={answer} of={of} />
    </div>
  );
}

/** What is pinned at the foot: the state that the first open step asks for, and what is to be heeded there. */
function pinnedOf(answer: Answer) {
  const step = answer.findings.find((f) => f.do && isOpen(f.state));
  return { state: step?.state ?? ("desk" as const), cautions: step?.before ?? answer.cautions };
}
const plotsOf = (sheet: Question, answer: Answer) =>
  answer.missing.length > 0 ? [] : sheet.figures.filter((f) => hasValues(f, answer)).map((f) => f.id);
/** What the page is made of, apart from the words and curves that follow a hand by themselves. */
const madeOf = (sheet: Question, a: Answer): string =>
  JSON.stringify([foremostResult(sheet, a), plotsOf(sheet, a), a.drawn.length, a.strips.length, a.missing, a.unread, pinnedOf(a)]);
/** Lets an answer be shown in what stands, while a hand moves, where the page would be made of the same with it and all that is in sight follows by itself. */
function frameOf(shown: Shown | undefined, inSightCount: number): Follows {
  return (answer, tried) => {
    if (!shown) return undefined;
    const { sheet, of } = shown;
    // strips are drawn by rendering alone
    const follows = inSightCount > 0 && inSightCount <= plotsOf(sheet, shown.answer).length + shown.answer.drawn.length;
    const isMoving = of.dragging && of.issues.length === 0 && of.trying === Object.keys(tried).length > 0;
    return follows && isMoving && madeOf(sheet, answer) === madeOf(sheet, shown.answer) ? () => undefined : undefined;
  };
}

/** Whether what is seen first has been drawn, so that the rest may follow. */
function useDrawn(shown: boolean): boolean {
  const [drawn, setDrawn] = useState(false);
  useEffect(() => {
    if (!shown) return;
    const t = setTimeout(() => setDrawn(true), 0);
    return () => clearTimeout(t);
  }, [shown]);
  return drawn;
}

interface SheetProps {
  readonly view: JobView;
  readonly sheet: Question;
  /** the subject to begin with; empty for the first */
  readonly about: string;
  readonly name: string;
  readonly reload: () => void;
}
/** A sheet as an instrument: answer, number and picture stay in sight while its inputs are turned; below it what to do, all values, how it is worked out. */
export function SheetPage({ view, sheet, about, name, reload }: SheetProps) {
  const subjects = subjectsIn(view, sheet);
  const [at, setAt] = useState(subjects.includes(about) ? about : (subjects[0] ?? ""));
  const of = useWhatIf(view, name, sheet, at, reload);
  const wide = useMedia("(min-width: 1000px)");
  const { answer } = of;
  const drawn = useDrawn(answer !== undefined);
  const shown = answer && { view, sheet, answer, of };
  const pictures = shown ? picturesOf(shown, !wide) : [];
  // a question without a picture has what to do in its place, where there is room beside
  const todoBeside = wide && pictures.length === 0;
  const inSight = pictures.slice(0, wide ? 2 : 1);
  // number, sentence and curve first; the spot and what is turned follow them at once
  const shownNow = drawn ? inSight : inSight.slice(0, 1);
  useFollowing(frameOf(shown, inSight.length), of.followers);
  const named = [...(answer?.quantities ?? []), ...(answer?.choices ?? []), ...(answer?.rows ?? [])];
  return (
    <main className="sheet" aria-busy={of.working}>
      <div className="bench">
        <Asked view={view} sheet={sheet} at={at} setAt={setAt} />
        <Following.Provider value={of.followers}>
          <div className="glance">
            <div className="says">
              {answer && <Numbers sheet={sheet} answer={answer} record={of.trying ? of.record : undefined} />}
              <Says answer={answer} of={of} />
            </div>
            <div className="pictures">{answer && todoBeside ? <ToDo answer={answer} /> : shownNow}</div>
          </div>
          <div className="turn">
            {answer && drawn && <Inputs sheet={sheet} answer={answer} of={of} />}
            <Trying of={of} named={named} />
          </div>
        </Following.Provider>
      </div>
      {shown && drawn && <Below shown={shown} name={name} todo={!todoBeside} inSight={inSight.length} small={!wide} />}
      {answer && <Pinned {...pinnedOf(answer)} />}
    </main>
  );
}

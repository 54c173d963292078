import type { Answer } from "../../../ask/answered";
import type { Figure } from "../../../ask/results";
import { aboutFigure } from "../../../ask/say";
import type { Question } from "../../../sheets/question";
import { printInterval } from "../../../units/print";
import { Told } from "./following";

const told = (f: Figure | undefined): f is Figure => f !== undefined && f.low !== null && f.high !== null;
/** The name of the figure that stands largest: the first of the question's own that has a value. */
export const foremostResult = (sheet: Question, answer: Answer): string | undefined => sheet.key.find((k) => told(answer.results[k]));

const around = (f: Figure): string =>
  f.exact || f.low === null || f.high === null || f.low === f.high ? "" : `95 %: ${printInterval(null, f.low, f.high, f.dimension)}`;

/** The answer's number, the largest thing on the screen; beside it the record's while something else is tried. */
export function Numbers({
  sheet,
  answer,
  record,
}: {
  readonly sheet: Question;
  readonly answer: Answer;
  readonly record?: Answer | undefined;
}) {
  const first = foremostResult(sheet, answer);
  if (first === undefined) return null;
  const f = answer.results[first];
  const isExample = (a: Answer): boolean => a.unread.length > 0;
  /** the same figure of another answer, where it is told alike */
  const same = (a: Answer): Figure | undefined =>
    foremostResult(sheet, a) === first && isExample(a) === isExample(answer) && (around(a.results[first]) === "") === (around(f) === "")
      ? a.results[first]
      : undefined;
  const alike = (say: (f: Figure) => string) => (a: Answer) => {
    const now = same(a);
    return now && say(now);
  };
  const was = record?.results[first];
  const example = isExample(answer);
  return (
    <div className={example ? "numbers example" : "numbers"}>
      {example && <p className="examplenote">EXAMPLE, not this set</p>}
      <div className="number">
        <Told className="big" now={aboutFigure(f)} says={alike(aboutFigure)} />
        <p>
          {f.meaning}
          {around(f) && ","} <Told as="span" className="around" now={around(f)} says={alike(around)} />
        </p>
      </div>
      {told(was) && (
        <div className="number was">
          <p className="big">{aboutFigure(was)}</p>
          <p>on record</p>
        </div>
      )}
    </div>
  );
}

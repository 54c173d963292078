import { memo, useCallback, useMemo } from "preact/compat";
import type { Answer } from "../../../ask/answered";
import type { FigureSpec, Strips } from "../../../ask/drawings";
import type { JobView } from "../../../job/view";
import { type Drawing, drawingOf, hasValues } from "../../figures/drawing";
import { stripsSvg } from "../../figures/strips";
import { sweepOver } from "../../figures/sweeps";
import { Scroll } from "../parts";
import { Told } from "../sheet/following";
import { Curves } from "./curves";
import { pageInk } from "./ink";

/** What lies where along a scale, in words. */
export const StripsPicture = ({ of, example }: { readonly of: Strips; readonly example: boolean }) => (
  <figure className={example ? "plot strips example" : "plot strips"}>
    <Scroll label={of.title}>
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by our own figure writer, every text escaped */}
      <div dangerouslySetInnerHTML={{ __html: stripsSvg(of, 640, pageInk).svg }} />
    </Scroll>
    <figcaption>
      {example ? "EXAMPLE, not this set. " : ""}
      {of.title}
    </figcaption>
  </figure>
);

/** The job's own curves, to stand behind those that are tried; in a low picture the caption tells what they are. */
const behindOf = (job: Drawing, small: boolean): Drawing["traces"] =>
  job.traces.map(({ low: _l, high: _h, ...t }) => ({
    ...t,
    label: small ? "" : `${t.label} (job)`,
    stroke: "faint" as const,
    dash: true,
  }));

const sweepSaid = { last: "the last sweep as read", "as found": "the sweep as found" } as const;
/** What the points of a picture are. */
const pointsSaid = ({ points = [] }: Drawing, sweep: FigureSpec["overSweep"]): string => {
  const said = points.map((p) => p.label ?? (sweep ? sweepSaid[sweep] : ""));
  return said.length > 0 ? `; points: ${said.join(", ")}` : "";
};

/** Heights of a picture at a width: one that stays in sight on a phone, and one with room. */
const lowPx = (): number => 160;
const highPx =
  (part: number) =>
  (width: number): number =>
    Math.round(Math.max(260, Math.min(width * part, 430)));

interface PlotProps {
  readonly spec: FigureSpec;
  readonly answer: Answer;
  /** the answer on record, drawn behind a what-if */
  readonly job?: Answer;
  /** the job, where a sweep that was read may lie over the curve */
  readonly view?: JobView;
  /** drawn low, its axes told in the caption: it stays in sight on a phone */
  readonly small?: boolean;
  /** while a hand moves it */
  readonly moving?: boolean;
}
/** A figure of an answer over the job's own curves and what was measured; of the same answer the same. */
function drawingOver(spec: FigureSpec, behind: Drawing["traces"], view: JobView | undefined): (answer: Answer) => Drawing {
  let last: { readonly answer: Answer; readonly drawing: Drawing } | undefined;
  return (answer) => {
    if (last?.answer === answer) return last.drawing;
    const own = drawingOf(spec, answer);
    const points = [...(own.points ?? []), ...((view && sweepOver(view, spec, answer)) ?? [])];
    last = { answer, drawing: { ...own, traces: [...behind, ...own.traces], ...(points.length > 0 ? { points } : {}) } };
    return last.drawing;
  };
}

/** A figure with its numbers behind it, for those who read tables better than curves. */
export const Plot = memo(function Plot({ spec, answer, job, view, small = false, moving = false }: PlotProps) {
  const behind = useMemo(() => (job && hasValues(spec, job) ? behindOf(drawingOf(spec, job), small) : []), [spec, job, small]);
  const over = useMemo(() => drawingOver(spec, behind, view), [spec, behind, view]);
  const follows = useCallback((a: Answer) => (hasValues(spec, a) ? over(a) : undefined), [spec, over]);
  const caption = (d: Drawing): string =>
    (small ? `${d.yLabel}, over ${d.xLabel}${job ? "; dashed and faint: the job" : ""}` : spec.title) + pointsSaid(d, spec.overSweep);
  return (
    <figure className={small ? "plot small" : "plot"}>
      <Curves of={over(answer)} heightAt={small ? lowPx : highPx(0.55)} bare={small} moving={moving} follows={follows} />
      <Told
        as="figcaption"
        now={caption(over(answer))}
        says={(a) => {
          const d = follows(a);
          return d && caption(d);
        }}
      />
      {!small && <PlotValues spec={spec} answer={answer} moving={moving} />}
    </figure>
  );
});

/** A picture that rests on no question: what was read, as it stands in the job. */
export function ReadPlot({ of: d }: { readonly of: Drawing }) {
  return (
    <figure className="plot">
      <Curves of={d} heightAt={highPx(0.4)} />
      <figcaption>{d.title}</figcaption>
    </figure>
  );
}

/** The numbers of a plot, read off at 21 places along it; they follow when the hand rests. */
const PlotValues = memo(PlotValuesNow, (_, b) => b.moving);
function PlotValuesNow({ spec, answer }: { readonly spec: FigureSpec; readonly answer: Answer; readonly moving: boolean }) {
  const d = drawingOf(spec, answer);
  const first = d.traces[0];
  const rows = Array.from({ length: 21 }, (_, i) => Math.round((i * (first.x.length - 1)) / 20));
  return (
    <details>
      <summary>Values of this plot</summary>
      <Scroll label={`Values of ${d.title}`}>
        <table>
          <thead>
            <tr>
              <th scope="col">{d.xLabel}</th>
              {d.traces.map((t) => (
                <th scope="col" key={t.label}>
                  {t.label}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((r) => (
              <tr key={r}>
                <td>{first.x[r].toPrecision(6)}</td>
                {d.traces.map((t) => (
                  <td key={t.label}>{t.y[r].toFixed(2)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </details>
  );
}

import { memo, useMemo } from "preact/compat";
import type { Answer } from "../../../ask/answered";
import type { FigureSpec, Strips } from "../../../ask/drawings";
import { type Drawing, drawingOf, hasValues } from "../../figures/drawing";
import { stripsSvg } from "../../figures/strips";
import { Scroll } from "../parts";
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
const pointsSaid = (own: Drawing, sweep: FigureSpec["overSweep"]): string => {
  const said = [...(own.points ?? []).flatMap((p) => p.label ?? []), ...(sweep ? [sweepSaid[sweep]] : [])];
  return said.length > 0 ? `; points: ${said.join(", ")}` : "";
};

/** Heights of a picture at a width: one that stays in sight on a phone, and one with room. */
const lowPx = (): number => 160;
const highPx =
  (part: number) =>
  (width: number): number =>
    Math.round(Math.max(260, Math.min(width * part, 430)));

/** A figure with its numbers behind it, for those who read tables better than curves. */
export const Plot = memo(function Plot({
  spec,
  answer,
  job,
  points,
  small = false,
  moving = false,
}: {
  readonly spec: FigureSpec;
  readonly answer: Answer;
  /** the answer on record, drawn behind a what-if */
  readonly job?: Answer;
  /** what was measured, in the units of the axes */
  readonly points?: Drawing["points"];
  /** drawn low, its axes told in the caption: it stays in sight on a phone */
  readonly small?: boolean;
  /** while a hand moves it */
  readonly moving?: boolean;
}) {
  const own = useMemo(() => drawingOf(spec, answer), [spec, answer]);
  const behind = useMemo(() => (job && hasValues(spec, job) ? behindOf(drawingOf(spec, job), small) : []), [spec, job, small]);
  const drawing = useMemo(
    () => ({
      ...own,
      traces: [...behind, ...own.traces],
      ...(points ? { points: [...(own.points ?? []), ...points] } : {}),
    }),
    [own, behind, points],
  );
  return (
    <figure className={small ? "plot small" : "plot"}>
      <Curves of={drawing} heightAt={small ? lowPx : highPx(0.55)} bare={small} moving={moving} />
      <figcaption>
        {small ? `${own.yLabel}, over ${own.xLabel}${job ? "; dashed and faint: the job" : ""}` : spec.title}
        {pointsSaid(own, points && spec.overSweep)}
      </figcaption>
      {!small && <PlotValues of={own} moving={moving} />}
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
function PlotValuesNow({ of: d }: { readonly of: Drawing; readonly moving: boolean }) {
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

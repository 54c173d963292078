import { useMemo } from "preact/compat";
import type { Shown } from "../../../desk/recognise";
import type { JobView } from "../../../job/view";
import { Curves } from "../figure/curves";

const rawPx = (): number => 260;
/** Numbers of a file over axes, before anything is made of them. */
export function Raw({ of }: { readonly of: Shown }) {
  const drawing = useMemo(() => {
    const bare = { id: "raw", title: of.title, xLabel: of.xLabel, yLabel: of.yLabel, xLog: false, example: false };
    const traces = of.traces.map((t) => ({ ...t, stroke: "ink" as const, dash: false }));
    return of.points ? { ...bare, traces: traces.map((t) => ({ ...t, dash: true })), points: of.traces } : { ...bare, traces };
  }, [of]);
  return (
    <figure className="plot raw">
      <Curves of={drawing} heightAt={rawPx} />
    </figure>
  );
}

/** A kept sweep or dial as it came. */
export function shownOf(r: JobView["readings"][number]): Shown | undefined {
  const { frequencyHz: hz, levelDb, reading } = r.columns;
  if (!hz || hz.length < 2) return undefined;
  const [factor, unit] = hz[hz.length - 1] >= 3e6 ? [1e6, "MHz"] : [1e3, "kHz"];
  const f = hz.map((v) => v / factor);
  const base = { title: r.file.name };
  if (levelDb)
    return { ...base, xLabel: `frequency, ${unit}`, yLabel: "level, dB", traces: [{ label: r.state.replace("-", " "), x: f, y: levelDb }] };
  if (!reading) return undefined;
  return {
    ...base,
    xLabel: "scale reading",
    yLabel: `frequency, ${unit}`,
    points: true,
    traces: [{ label: "zero beats", x: reading, y: f }],
  };
}

/** What a reading tells: drawn, read out, with its warnings. */
export function Told({ reading: r, as }: { readonly reading: JobView["readings"][number]; readonly as?: Shown | undefined }) {
  const shown = useMemo(() => as ?? shownOf(r), [as, r]);
  return (
    <>
      {shown && <Raw of={shown} />}
      <table className="figures">
        <tbody>
          {r.figures.map((f) => (
            <tr key={f.name}>
              <th scope="row">{f.name}</th>
              <td>{f.text}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {r.warnings.map((w) => (
        <p key={w} className="warn">
          {w}
        </p>
      ))}
    </>
  );
}

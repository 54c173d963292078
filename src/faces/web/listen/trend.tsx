import { useEffect, useRef, useState } from "preact/compat";
import type { Input } from "./use-input";

/** So long a time is seen, and so many dB under the best. */
const spanS = 20;
const everyS = 0.1;
const leastDb = 10;

interface Point {
  readonly atS: number;
  readonly db: number;
}
/** The level of the last seconds, ten times a second; begun afresh with its best. */
function usePoints({ follow, open }: Input): readonly Point[] {
  const [points, setPoints] = useState<readonly Point[]>([]);
  const held = useRef<Point[]>([]);
  useEffect(() => {
    held.current = [];
    setPoints([]);
    if (!open) return undefined;
    return follow(({ peak }) => {
      const last = held.current.at(-1);
      if (!peak?.top || (last && peak.atS > last.atS && peak.atS < last.atS + everyS)) return;
      const db = peak.top.underDb + peak.top.bestDb;
      held.current = held.current.filter((p) => p.atS > peak.atS - spanS && p.atS < peak.atS);
      held.current.push({ atS: peak.atS, db });
      setPoints([...held.current]);
    });
  }, [follow, open]);
  return points;
}

/** The level against time, the best as a line on top of it. */
export function Trend({ input, bestDb }: { readonly input: Input; readonly bestDb: number | undefined }) {
  const points = usePoints(input);
  const last = points.at(-1);
  if (!last || bestDb === undefined) return <svg className="trend" viewBox="0 0 200 60" aria-hidden="true" />;
  const lowest = Math.min(bestDb - leastDb, ...points.map((p) => p.db));
  const y = (db: number): number => 3 + (54 * (bestDb - db)) / (bestDb - lowest);
  const x = (s: number): number => 200 - (200 * (last.atS - s)) / spanS;
  const path = points.map((p, i) => `${i === 0 ? "M" : "L"}${x(p.atS).toFixed(1)} ${y(p.db).toFixed(1)}`).join("");
  return (
    <svg
      className="trend"
      viewBox="0 0 200 60"
      preserveAspectRatio="none"
      role="img"
      aria-label="Level over the last 20 seconds, the best as a line"
    >
      <line className="best" x1="0" x2="200" y1="3" y2="3" />
      <path className="level" d={path} />
    </svg>
  );
}

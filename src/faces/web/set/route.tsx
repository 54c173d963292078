import { Fragment, type ReactNode } from "preact/compat";
import type { Due } from "../../../job/document";
import type { Place } from "../../../job/rollups/route";
import { Tag } from "./tag";

/** A ruled line that a hand drew: nearly straight, and the same each time for the same place. */
function ruled(seed: number): string {
  const wave = (i: number) => 6 + 1.6 * Math.sin(seed * 2.3 + i * 1.7) + 0.9 * Math.sin(seed * 5.1 + i * 4.3);
  const points = Array.from({ length: 9 }, (_, i) => `${(i * 100) / 8} ${(i === 0 || i === 8 ? 6 : wave(i)).toFixed(2)}`);
  return `M${points.join(" L")}`;
}
const Ruled = ({ seed }: { readonly seed: number }) => (
  <>
    <svg className="ruled" viewBox="0 0 100 12" preserveAspectRatio="none" aria-hidden="true">
      <path d={ruled(seed)} />
    </svg>
    <span className="string" aria-hidden="true" />
  </>
);
const lists = [
  ["path", "Signal path, antenna to loudspeaker"],
  ["beside", "Beside the path"],
  ["hung", "Accessories"],
] as const;

/** The set whole: tags on a string. The place that is open lies right under the row of its tag. */
export function Route({
  places,
  open,
  choose,
  lit = [],
  litBy = "",
  children,
}: {
  readonly places: readonly Place[];
  readonly open: string;
  readonly choose: (path: string) => void;
  readonly lit?: readonly Due[];
  /** where the work was done that lights it */
  readonly litBy?: string;
  readonly children?: ReactNode;
}) {
  const litAt = (p: Place): Due | undefined => {
    const own = lit.filter((d) => p.steps.includes(d.target));
    return own.find((d) => d.amount) ?? own[0] ?? (p.path === litBy ? lit[0] : undefined);
  };
  return (
    <section className="routewrap" aria-label="The set, place by place">
      <ul className="route">
        {places.map((p, i) => (
          <Fragment key={p.path}>
            <li className={p.lies} data-lies={lists.find(([l]) => l === p.lies && places.findIndex((x) => x.lies === l) === i)?.[1]}>
              <Ruled seed={i + 1} />
              <Tag place={p} open={open === p.path} lit={litAt(p)} choose={choose} />
            </li>
            {open === p.path && children && (
              <li className="opened" id="place">
                {children}
              </li>
            )}
          </Fragment>
        ))}
      </ul>
    </section>
  );
}

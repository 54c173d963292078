import { useMemo } from "preact/compat";
import { whereOf } from "../../../job/rollups/where";
import { standingOf } from "../../../job/sitting";
import type { JobView } from "../../../job/view";
import { jobLink } from "../links";

/** After so long away one sits down again rather than goes on. */
const awayMs = 4 * 3600 * 1000;

/** Where things stand, in six lines: open for whoever sits down again, folded for whoever is at work. */
export function Where({ view, name }: { readonly view: JobView; readonly name: string }) {
  const [now, lines] = useMemo(() => {
    const at = new Date();
    return [at, whereOf(view, at.toISOString())] as const;
  }, [view]);
  const last = view.document.entries.at(-1)?.at;
  const away = standingOf(view) !== undefined && last !== undefined && now.getTime() - Date.parse(last) > awayMs;
  return (
    <details className="where" open={away}>
      <summary>Where things stand</summary>
      <dl>
        {lines.map((l) => (
          <div key={l.head}>
            <dt>{l.head}</dt>
            <dd>{l.says}</dd>
          </div>
        ))}
      </dl>
      <p>
        <a href={jobLink(name, "sitting")}>Sit down, get up, wait for something</a>
      </p>
    </details>
  );
}

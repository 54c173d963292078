import { useMemo, useState } from "preact/compat";
import { type JobView, readingsAndDials } from "../../../job/view";
import { Panel } from "../parts";
import { Told } from "./told";

/** How many readings stand on the page at first, and how many more each time it is asked. */
const atFirst = 60;
const more = 200;

/** Readings kept so far, as found beside as left, the latest of many; zero beats by their dial. */
export function ReadingList({ view, name }: { readonly view: JobView; readonly name: string }) {
  const { readings, dials } = useMemo(() => readingsAndDials(view), [view]);
  const [most, setMost] = useState(atFirst);
  const shown = readings.slice(-most);
  return (
    <Panel title="Readings kept" id="kept">
      {view.readings.length === 0 && <p>None yet.</p>}
      {dials.map((d) => (
        <p key={d}>
          <a href={`#/job/${encodeURIComponent(name)}/dial`}>{d}</a>
        </p>
      ))}
      {shown.length < readings.length && (
        <p>
          The latest {shown.length} of {readings.length}.{" "}
          <button type="button" className="plain" onClick={() => setMost(most + more)}>
            Show {Math.min(more, readings.length - shown.length)} more
          </button>
        </p>
      )}
      {shown.map((r) => (
        <details key={r.id}>
          <summary>
            {r.file.name}: {r.as}, {r.state.replace("-", " ")}
            {r.invented ? ", invented" : ""}
          </summary>
          <Told reading={r} />
          {r.invented && <p className="warn">Invented: {r.invented}</p>}
        </details>
      ))}
    </Panel>
  );
}

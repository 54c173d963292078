import { type JobView, readingsAndDials } from "../../../job/view";
import { Panel } from "../parts";
import { Told } from "./told";

/** Readings kept so far, as found beside as left; zero beats by their dial. */
export function ReadingList({ view, name }: { readonly view: JobView; readonly name: string }) {
  const { readings, dials } = readingsAndDials(view);
  return (
    <Panel title="Readings kept" id="kept">
      {view.readings.length === 0 && <p>None yet.</p>}
      {dials.map((d) => (
        <p key={d}>
          <a href={`#/job/${encodeURIComponent(name)}/dial`}>{d}</a>
        </p>
      ))}
      {readings.map((r) => (
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

import { dueBySteps } from "../../../job/due-tasks";
import { isDueAgain } from "../../../job/open-steps";
import { type Place, questionsAt, readAt } from "../../../job/rollups/route";
import { stepById } from "../../../job/steps";
import type { JobView } from "../../../job/view";
import { Standing, useStandings } from "../find/standing";
import { jobLink } from "../links";
import { here } from "../opened";
import { State } from "../parts";

interface At {
  readonly view: JobView;
  readonly place: Place;
  readonly name: string;
}
/** What is due at a place, then the state of its steps. */
function Steps({ view, place: p }: At) {
  const steps = view.steps.filter((s) => p.steps.includes(s.id));
  return (
    <div>
      <h3>{steps.some(isDueAgain) ? "Due again" : p.due.length > 0 ? "To be done after the work" : "Its steps"}</h3>
      <ul className="bare">
        {dueBySteps(p.due).map((d) => (
          <li key={d.target} className="duenote">
            <strong>{d.task}</strong>: {d.why}
            {d.amounts.length > 0 ? `. By how much: ${d.amounts.join("; ")}` : ""}.
          </li>
        ))}
        {steps.map((s) => (
          <li key={s.id}>
            <State state={s.state} /> {stepById(s.id)?.title}
          </li>
        ))}
      </ul>
    </div>
  );
}
/** What may be asked of a place, and whether it can be answered. */
function Asks({ view, place: p, name }: At) {
  const asked = questionsAt(view, p.path);
  const standings = useStandings(view, asked);
  const about = (q: (typeof asked)[number]): readonly string[] => (q.subject === "stage" || q.subject === "fitting" ? [p.path] : []);
  return (
    <div>
      <h3>Ask</h3>
      <ul className="bare asks">
        {asked.map((q) => (
          <li key={q.id}>
            <a href={jobLink(name, "sheet", q.id, ...about(q))}>{q.question}</a> <Standing of={standings.get(q.id)} />
          </li>
        ))}
        {asked.length === 0 && <li>No question about it yet.</li>}
      </ul>
    </div>
  );
}
/** What was read at a place. */
function Reads({ view, place: p, name }: At) {
  const reads = readAt(view, p.path);
  return (
    <div>
      <h3>Read here</h3>
      <ul className="bare">
        {reads.map((r) => (
          <li key={r.when + r.says}>
            {r.says} <span className="quiet">({r.when})</span>
          </li>
        ))}
        {reads.length === 0 && (
          <li>
            Nothing yet. <a href={jobLink(name, "readings")}>Read a file in</a> or fill in a card.
          </li>
        )}
      </ul>
    </div>
  );
}

/** One place of the set, opened: what is the matter with it, what may be asked of it, what was read there, its steps. */
export function PlaceOpen(at: At) {
  const { place: p, name } = at;
  return (
    <section className="place" aria-labelledby="place-title">
      <header>
        <h2 id="place-title">{p.label}</h2>
        <span className="quiet">{p.part}</span>
        <span className="buttons">
          {here && (
            <a className="button" href={jobLink(name, "mend", p.path)}>
              Mend it
            </a>
          )}
          {here && (
            <a className="button plain" href={jobLink(name, "work", "", p.path)}>
              Record work here
            </a>
          )}
          {p.lies !== "hung" && (
            <a className="button plain" href={jobLink(name, "records", "voltage-chart")}>
              Write its volts
            </a>
          )}
          {here && (
            <a className="button plain" href={jobLink(name, "faults", p.path)}>
              Note a fault
            </a>
          )}
        </span>
      </header>
      <div className="place-parts">
        <Steps {...at} />
        <Asks {...at} />
        <Reads {...at} />
      </div>
    </section>
  );
}

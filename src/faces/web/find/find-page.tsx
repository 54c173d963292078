import { useMemo, useRef } from "preact/compat";
import { situations } from "../../../ask/contract";
import type { JobView } from "../../../job/view";
import { questions } from "../../../sheets/asked";
import { type Findable, findQuestions } from "../../../sheets/finding";
import { Pinned } from "../bench-bar";
import { useKept } from "../kept";
import { jobLink } from "../links";
import { Standing, useStandings } from "./standing";

/** Every question, by bench situation, searched in the bench's own words; each says whether it can be answered. */
export function FindPage({ view, name }: { readonly view: JobView; readonly name: string }) {
  const [said, setSaid] = useKept(`find:${name}`, "");
  const [when, setWhen] = useKept(`when:${name}`, "");
  const standings = useStandings(view, questions);
  const field = useRef<HTMLInputElement>(null);
  const hits = useMemo(() => findQuestions(said), [said]);
  const shown = hits.filter((f) => when === "" || f.when.some((w) => w === when));
  const groups =
    said.trim() !== "" || when !== ""
      ? [{ title: "", of: shown }]
      : situations.map((s) => ({ title: s, of: hits.filter((f) => f.when[0] === s) }));
  const line = (f: Findable) => (
    <li key={f.question.id}>
      <a href={jobLink(name, "sheet", f.question.id)}>{f.question.question}</a> <Standing of={standings.get(f.question.id)} />
    </li>
  );
  return (
    <main className="findpage">
      <h1>What do you want to know?</h1>
      <label className="field find">
        In your own words: hum, low B+, drifts, can't hear marker
        {/* biome-ignore lint/a11y/noAutofocus: the page is this one field, asked for by the tap that opened it */}
        <input ref={field} type="search" autoFocus value={said} onChange={(e) => setSaid(e.currentTarget.value)} />
      </label>
      <fieldset className="buttons" aria-label="Situation">
        {situations.map((s) => (
          <button type="button" key={s} className="plain" aria-pressed={when === s} onClick={() => setWhen(when === s ? "" : s)}>
            {s}
          </button>
        ))}
      </fieldset>
      <p role="status" className="quiet">
        {shown.length === 0
          ? "No question matches. Try the part, or what you see, hear or smell."
          : said.trim() !== "" || when !== ""
            ? `${shown.length} ${shown.length === 1 ? "question" : "questions"}`
            : ""}
      </p>
      <div className="situations">
        {groups.map((g) => (
          <section key={g.title}>
            {g.title && <h2>{g.title}</h2>}
            <ul className="bare asks">{g.of.map(line)}</ul>
          </section>
        ))}
      </div>
      <Pinned state="desk" cautions={[]} />
    </main>
  );
}

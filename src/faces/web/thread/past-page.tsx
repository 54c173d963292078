import { useMemo, useState } from "preact/compat";
import { type Past, pastOf } from "../../../job/history/history";
import type { JobView } from "../../../job/view";
import { historyWords } from "../../../set/addresses/history";
import type { Issue } from "../../../units/issue";
import { upperFirst } from "../../../units/sentence";
import { api } from "../api";
import { useKept } from "../kept";
import { jobLink } from "../links";
import { Cautions, Issues } from "../parts";
import { issuesOf } from "../task";

/** One thing that others may have done: how one sees it, how it stands, what it puts in doubt and what settles it. */
function PastBox({ of: p, name, reload }: { readonly of: Past; readonly name: string; readonly reload: () => void }) {
  const [words, setWords] = useKept(`past:${name}:${p.name}`, p.words);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const say = async (word: string) => {
    try {
      await api.history(name, { [p.name]: words.trim() === "" ? word : `${word}: ${words.trim()}` });
      setIssues([]);
      reload();
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  return (
    <li className={p.next ? "fault open" : "fault"}>
      <h2>
        {upperFirst(p.meaning)}: {p.word}
      </h2>
      <p className="quiet">Look for: {p.howSeen}.</p>
      <label className="field">
        In your words
        <input value={words} onChange={(e) => setWords(e.currentTarget.value)} />
      </label>
      <p className="buttons">
        {historyWords.map((w) => (
          <button
            key={w}
            type="button"
            className="plain"
            aria-pressed={p.word === w}
            aria-label={`${upperFirst(w)}: ${p.meaning}`}
            onClick={() => void say(w)}
          >
            {upperFirst(w)}
          </button>
        ))}
      </p>
      {p.next && (
        <>
          <p>
            It puts in doubt: {p.widens}. Until: {p.until}.
          </p>
          <Cautions of={p.cautions} />
          <p>
            <strong>Settle it:</strong> {p.next.says}.{" "}
            {p.next.sheet && <a href={jobLink(name, "sheet", p.next.sheet)}>Open the question</a>}
          </p>
        </>
      )}
      <Issues of={issues} />
    </li>
  );
}

/** What others did to the set before it came, what is not settled first. */
export function PastPage({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const past = useMemo(() => [...pastOf(view)].sort((a, b) => Number(b.next !== undefined) - Number(a.next !== undefined)), [view]);
  const open = past.filter((p) => p.next).length;
  return (
    <main className="faults">
      <h1>What others did to it{open > 0 ? `: ${open} to settle` : ""}</h1>
      <ul className="bare">
        {past.map((p) => (
          <PastBox key={p.name} of={p} name={name} reload={reload} />
        ))}
      </ul>
    </main>
  );
}

import { useEffect, useState } from "preact/compat";
import type { Found } from "../../store/store";
import { momentInWords } from "../../units/day";
import { api } from "./api";

/** Entries of all jobs that hold what is searched for, below the jobs of that name. */
export function InRecords({ text }: { readonly text: string }) {
  const [given, setGiven] = useState<{ readonly text: string; readonly found: readonly Found[]; readonly more: boolean }>();
  useEffect(() => {
    const control = new AbortController();
    api.search(text, control.signal).then(
      (found) => setGiven({ ...found, text }),
      () => undefined,
    );
    return () => control.abort();
  }, [text]);
  if (given?.text !== text || given.found.length === 0) return null;
  return (
    <>
      <h3>In the records</h3>
      <ul className="joblist">
        {given.found.map((f) => (
          <li key={`${f.job} ${f.id}`}>
            <a href={`#/job/${encodeURIComponent(f.job)}`}>{f.job}</a>
            <span>{f.excerpt}</span>
            <span className="quiet">{`${f.who}, ${momentInWords(f.at)}`}</span>
          </li>
        ))}
      </ul>
      {given.more && <p className="quiet">{`The latest ${given.found.length}: type more to find others.`}</p>}
    </>
  );
}

import { useState } from "preact/compat";
import { crossedIn } from "../../job/crossed";
import type { JobView } from "../../job/view";
import { momentInWords } from "../../units/day";
import type { Issue } from "../../units/issue";
import { api } from "./api";
import { here } from "./opened";
import { Issues } from "./parts";
import { issuesOf } from "./task";

/** Places to which two people wrote different values, each with a button that says which one is right. */
export function Crossings({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const all = crossedIn(view);
  if (all.length === 0) return <Issues of={issues} />;
  const settle = (place: string, entry: string): void => {
    api.settle(name, place, entry).then(
      () => {
        setIssues([]);
        reload();
      },
      (e) => setIssues(issuesOf(e)),
    );
  };
  return (
    <section className="crossings" aria-label="Two values for one place">
      {all.map((c) => (
        <div key={c.key} className="crossing">
          <p>
            <strong>{c.place}</strong> has two values. Neither of you had seen the other's. The last one counts until you say which is
            right.
          </p>
          <ul>
            {c.claims.map((claim) => (
              <li key={claim.entry}>
                <span className="said">{claim.says}</span> <span className="quiet">{`${claim.who}, ${momentInWords(claim.at)}`}</span>{" "}
                {here && (
                  <button type="button" onClick={() => settle(c.key, claim.entry)}>
                    {`${claim.says} is right`}
                  </button>
                )}
              </li>
            ))}
          </ul>
        </div>
      ))}
      <Issues of={issues} />
    </section>
  );
}

import { type ResponseTold, responseCsv } from "../../../desk/response";
import { bfoTake, generatorTake } from "../../../desk/strip-takes";
import type { Takes } from "../../../desk/takes";
import type { Issue } from "../../../units/issue";
import { api } from "../api";
import { CantWait } from "../cant-wait";
import { useKept } from "../kept";
import { Issues, Taken } from "../parts";
import { issuesOf, TaskLine, useTask } from "../task";
import type { ToJob } from "./keep-heard";
import { labelled, type Strip } from "./strip-view";
import { ResponseBox } from "./takes-told";

/** Keeps a selectivity as a sweep of the IF; the strip is fitted to it, as to every other one. */
function KeepSweep({ of, name, to }: { readonly of: ResponseTold; readonly name: string; readonly to: ToJob }) {
  const [state, setState] = useKept("listen:strip:state", "as-left");
  const task = useTask();
  const keep = () =>
    task.run("Keeping it, and fitting the strip to it", async (signal) => {
      const file = new File([responseCsv(of)], `${name.replace(/\.\w+$/, "")} response.csv`, { type: "text/csv" });
      const kept = await api.read(to.name, { as: "if-sweep", state, record: "yes" }, file, signal);
      to.reload();
      return `Kept as reading ${kept.reading.id}, a sweep of the IF.`;
    });
  return (
    <div className="row">
      <Taken value={state} onChange={setState} />
      <button type="button" onClick={() => void keep()}>
        Keep as a sweep of the IF
      </button>
      <CantWait act="read" />
      <TaskLine of={task} />
    </div>
  );
}
const told = (
  work: () => ResponseTold | undefined,
): { readonly response?: ResponseTold | undefined; readonly issues: readonly Issue[] } => {
  try {
    return { response: work(), issues: [] };
  } catch (e) {
    return { issues: labelled(issuesOf(e)) };
  }
};
/** Selectivity by the recordings that there are, and why there is none. */
export function StripTold({ takes, strip, to }: { readonly takes: Takes; readonly strip: Strip; readonly to?: ToJob | undefined }) {
  const both = [
    ["bfo", told(() => bfoTake(takes, strip.known))],
    ["generator", told(() => generatorTake(takes, strip.known))],
  ] as const;
  return (
    <>
      {both.map(([slot, { response, issues }]) => (
        <div key={slot}>
          <Issues of={issues} />
          {response && response.points.length > 4 && <ResponseBox of={response} />}
          {response && response.points.length > 4 && to && <KeepSweep of={response} name={takes[slot]?.heard.name ?? slot} to={to} />}
          {response && response.points.length <= 4 && <p className="quiet">Fewer than 5 points stand above the noise so far.</p>}
        </div>
      ))}
    </>
  );
}

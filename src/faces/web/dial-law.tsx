import { dialLaw } from "../../desk/questions";
import type { JobView } from "../../job/view";
import { regions, regionsSaid } from "../../standards/bands";
import { api } from "./api";
import { Plot } from "./figure/plot";
import { FindingBox, Panel } from "./parts";
import { useAnswer } from "./sheet/use-answer";
import { TaskLine, useTask } from "./task";

const sampling = { seed: 1, draws: 600 };
const nothing = {};

/** Asked once for the job: whose band edges count. Nothing is guessed from the line that the set is made for. */
export function Region({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const task = useTask();
  if (view.set.place?.region !== undefined || view.set.place?.licence !== undefined) return null;
  const state = (region: string) =>
    task.run("Recording it", async () => {
      await api.values(name, [{ path: "place.region", text: region }], "stated", "stated on the page of the dial");
      reload();
      return `${region}. Change it on the sheet on band edges.`;
    });
  return (
    <Panel title="Where is this set used?" id="region">
      <p>{`Band edges differ by ITU Region: ${regionsSaid}. None is printed until you say which.`}</p>
      <p className="buttons">
        {regions.map((r) => (
          <button key={r} type="button" className="plain" onClick={() => void state(r)}>
            {r}
          </button>
        ))}
      </p>
      <TaskLine of={task} />
    </Panel>
  );
}

/** The law as it stands, worked out anew off the main thread after each entry. */
export function LiveLaw({
  view,
  at,
  takeBack,
}: {
  readonly view: JobView;
  readonly at: string;
  readonly takeBack: (row: number) => Promise<unknown>;
}) {
  const { answer, issues, working } = useAnswer({
    document: view.document,
    sheet: dialLaw.id,
    at,
    overrides: nothing,
    sampling,
    dragging: false,
    wanted: true,
  });
  return (
    <Panel title="The law so far" id="law">
      <p className="headline" aria-live="polite" aria-busy={working}>
        {issues.length > 0
          ? issues.map((i) => `${i.path}: read ${i.read}, expected ${i.expected}`).join("; ")
          : (answer?.headline ?? "Working it out…")}
      </p>
      {answer && answer.missing.length === 0 && issues.length === 0 && (
        <>
          {answer.findings
            .filter((f) => /^dial-(odd|next-marker|leans|scatter)/.test(f.id))
            .map((f) => {
              const row = /^dial-odd-(\d+)$/.exec(f.id)?.[1];
              return (
                <div key={f.id}>
                  <FindingBox of={f} />
                  {row !== undefined && (
                    <button type="button" className="plain" onClick={() => void takeBack(Number(row) - 1)}>
                      {`Take back row ${row}`}
                    </button>
                  )}
                </div>
              );
            })}
          <Plot spec={dialLaw.figures[0]} answer={answer} />
        </>
      )}
    </Panel>
  );
}

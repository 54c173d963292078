import { useState } from "preact/compat";
import { heardIn } from "../../../desk/questions";
import { subjectFirst } from "../../../job/rollups/pointed";
import type { JobView } from "../../../job/view";
import { questionById } from "../../../sheets/asked";
import { useKept } from "../kept";
import { jobLink } from "../links";
import { Panel } from "../parts";
import type { OwnSaid } from "./band-messages";
import { OwnFields } from "./own-fields";
import { SceneFields, type SceneTyped, usual } from "./scene-fields";
import { Sides } from "./sides";

/** What the page doesn't ask. */
const unasked = { seconds: 8, pitch: "700 Hz", begins: "0 s" };

/** The few that matter are in sight: what is changed, with its own name. */
const Knobs = ({
  names,
  tried,
  say,
}: {
  readonly names: readonly (readonly [path: string, says: string])[];
  readonly tried: Readonly<Record<string, string>>;
  readonly say: (path: string, text: string) => void;
}) => (
  <div className="row">
    {names.map(([path, says]) => (
      <label key={path} className="field">
        {says}
        <input value={tried[path] ?? ""} placeholder="as the job has it" onChange={(e) => say(path, e.currentTarget.value)} />
      </label>
    ))}
  </div>
);
/** What the person says of it, kept as it is typed, and what is asked of the server for it. */
function useSaid(view: JobView, name: string, id: string, own: string) {
  const [scene, setScene] = useKept<SceneTyped>(`heard:scene:${name}`, usual);
  const [tried, setTried] = useKept<Readonly<Record<string, string>>>(`heard:${name}:${id}`, {});
  const question = questionById(id);
  const at = question && subjectFirst(view, question);
  const filled = Object.fromEntries(Object.entries(tried).filter(([, text]) => text.trim() !== ""));
  return {
    question,
    scene,
    tried,
    sayScene: (key: keyof SceneTyped) => (text: string) => setScene({ ...scene, [key]: text }),
    sayTried: (path: string, text: string) => setTried({ ...tried, [path]: text }),
    asks: JSON.stringify({ sheet: id, job: name, tried: filled, ...(at ? { at } : {}), ...unasked, ...scene, own }),
  };
}

/** A change heard before it is made: both sides of it, switched while they play. */
export function HearPage({ view, name, sheet: id }: { readonly view: JobView; readonly name: string; readonly sheet: string }) {
  const [own, setOwn] = useState<OwnSaid>();
  const { question, scene, tried, sayScene, sayTried, asks } = useSaid(view, name, id, own?.file.name ?? "");
  const hears = heardIn(id);
  if (!question || !hears)
    return (
      <main>
        <h1>Nothing to hear</h1>
        <p>This question has no strip that could be heard.</p>
      </main>
    );
  return (
    <main>
      <h1>Hear it first</h1>
      <p>
        <a href={jobLink(name, "sheet", id)}>{question.question}</a> What you hear is a model of this set, with an invented band or a
        recording of your own, both sides equally loud.
      </p>
      <Sides asks={asks} scene={JSON.stringify(scene)} own={own} />
      <Panel title="What is changed" id="changed">
        <Knobs names={hears.knobs} tried={tried} say={sayTried} />
      </Panel>
      <Panel title="What comes in" id="scene">
        <OwnFields own={own} set={setOwn} />
        <SceneFields scene={scene} say={sayScene} own={own !== undefined} />
      </Panel>
    </main>
  );
}

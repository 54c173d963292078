import { useEffect, useRef, useState } from "preact/compat";
import { heardIn } from "../../../desk/questions";
import type { HeardFigure } from "../../../desk/rehearse";
import { type JobView, subjectsIn } from "../../../job/view";
import { questionById } from "../../../sheets/asked";
import { Refused } from "../api";
import { useKept } from "../kept";
import { jobLink } from "../links";
import { Panel, Select } from "../parts";
import { TaskLine, useTask } from "../task";
import { sides, usePlayer } from "./use-player";

interface SceneTyped {
  readonly scene: string;
  readonly neighbours: string;
  readonly carriers: string;
  readonly noise: string;
  readonly strength: string;
  readonly crashes: string;
  readonly fading: string;
  readonly speed: string;
  readonly avc: string;
  readonly avcDown: string;
  readonly avcUp: string;
}
const usual: SceneTyped = {
  scene: "am",
  neighbours: "9 kHz, -10 dB",
  carriers: "3 kHz, -20 dB",
  noise: "",
  strength: "-73 dBm",
  crashes: "0",
  fading: "0 dB",
  speed: "20",
  avc: "on",
  avcDown: "50 ms",
  avcUp: "0.5 s",
};
/** What the page doesn't ask. */
const unasked = { seconds: 8, pitch: "700 Hz", begins: "0 s", own: "" };
const waitMs = 120;

const asked = async (path: string, said: unknown, signal: AbortSignal): Promise<Response> => {
  const r = await fetch(path, {
    method: "POST",
    body: JSON.stringify(said),
    headers: { "x-fettle": "page", "content-type": "application/json" },
    signal,
  });
  if (r.ok) return r;
  throw new Refused(
    (await r.json().catch(() => ({}))).issues ?? [{ path: "server", code: String(r.status), read: "", expected: "an answer" }],
  );
};

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
const SceneFields = ({ scene, say }: { readonly scene: SceneTyped; readonly say: (key: keyof SceneTyped) => (text: string) => void }) => {
  const field = (key: keyof SceneTyped, label: string, such = "") => (
    <label className="field">
      {label}
      <input value={scene[key] ?? ""} placeholder={such} onChange={(e) => say(key)(e.currentTarget.value)} />
    </label>
  );
  return (
    <div className="row">
      <Select
        label="Tuned to"
        value={scene.scene}
        onChange={say("scene")}
        options={[
          ["am", "an AM station"],
          ["ssb", "an SSB station"],
          ["cw", "a CW station"],
        ]}
      />
      {field("neighbours", "Neighbours: how far off, how strong")}
      {field("carriers", "Whistles: how far off, how strong")}
      {field("strength", "The station at the antenna terminal")}
      {field("noise", "Noise under it, in 6 kHz", "as the sheet on sensitivity has it")}
      {field("crashes", "Crashes a second")}
      {field("fading", "Selective fading")}
      {scene.scene === "cw" && field("speed", "Words a minute")}
      <Select
        label="AVC"
        value={scene.avc}
        onChange={say("avc")}
        options={[
          ["on", "on"],
          ["off", "off, manual gain"],
        ]}
      />
      {scene.avc === "on" && field("avcDown", "It turns the gain down in")}
      {scene.avc === "on" && field("avcUp", "and up again in")}
    </div>
  );
};
const Figures = ({ of }: { readonly of: readonly HeardFigure[] }) => (
  <table className="heard">
    <thead>
      <tr>
        <th scope="col">Measured on what is heard</th>
        <th scope="col">as it is</th>
        <th scope="col">as it would be</th>
      </tr>
    </thead>
    <tbody>
      {of.map((f) => (
        <tr key={f.name}>
          <th scope="row">{f.name}</th>
          <td>{f.asItIs}</td>
          <td>{f.asItWouldBe}</td>
        </tr>
      ))}
    </tbody>
  </table>
);

/** What the person says of it, kept as it is typed, and what is asked of the server for it. */
function useSaid(view: JobView, name: string, id: string) {
  const [scene, setScene] = useKept<SceneTyped>(`heard:scene:${name}`, usual);
  const [tried, setTried] = useKept<Readonly<Record<string, string>>>(`heard:${name}:${id}`, {});
  const question = questionById(id);
  const [at] = question ? subjectsIn(view, question) : [];
  const filled = Object.fromEntries(Object.entries(tried).filter(([, text]) => text.trim() !== ""));
  return {
    question,
    scene,
    tried,
    sayScene: (key: keyof SceneTyped) => (text: string) => setScene({ ...scene, [key]: text }),
    sayTried: (path: string, text: string) => setTried({ ...tried, [path]: text }),
    asks: JSON.stringify({ sheet: id, job: name, tried: filled, ...(at ? { at } : {}), ...unasked, ...scene }),
  };
}

/** Both sides: the band is asked for where what comes in has changed, the strips with every turn of a knob; then what is measured on them. */
function Sides({ asks, scene }: { readonly asks: string; readonly scene: string }) {
  const [said, setSaid] = useState<{ readonly figures: readonly HeardFigure[]; readonly card: string }>({ figures: [], card: "" });
  const task = useTask();
  const player = usePlayer();
  const heardScene = useRef("");
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again whenever what is asked has changed
  useEffect(() => {
    const both = () =>
      void task.run("Playing it through the strip", async (signal) => {
        const what: unknown = JSON.parse(asks);
        const anew = heardScene.current !== scene;
        const [strips, band] = await Promise.all([
          asked("api/rehearse.sides", what, signal).then((r) => r.json()),
          anew ? asked("api/rehearse.band", what, signal).then((r) => r.arrayBuffer()) : undefined,
        ]);
        // what may be played is there before it is said to be
        await player.take(strips, band);
        heardScene.current = scene;
        setSaid((s) => ({ figures: s.figures, card: strips.card }));
        setSaid(await (await asked("api/rehearse", what, signal)).json());
        return "Ready.";
      });
    const late = setTimeout(both, waitMs);
    return () => clearTimeout(late);
  }, [asks]);
  return (
    <Panel title="Listen" id="listen">
      <div className="sides">
        {sides.map((s) => (
          <button
            key={s}
            type="button"
            className={player.side === s ? "side" : "side plain"}
            aria-pressed={player.side === s}
            onClick={() => player.choose(s)}
          >
            {s}
          </button>
        ))}
        <button
          type="button"
          className={player.playing ? "side plain" : "side"}
          onClick={player.playing ? player.stop : player.play}
          disabled={said.card === ""}
        >
          {player.playing ? "Stop" : "Play"}
        </button>
      </div>
      <TaskLine of={task} stop="Leave it as it was" />
      {said.figures.length > 0 && <Figures of={said.figures} />}
      {said.card !== "" && <p className="quiet">{said.card}</p>}
    </Panel>
  );
}

/** A change heard before it is made: both sides of it, switched while they play. */
export function HearPage({ view, name, sheet: id }: { readonly view: JobView; readonly name: string; readonly sheet: string }) {
  const { question, scene, tried, sayScene, sayTried, asks } = useSaid(view, name, id);
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
        <a href={jobLink(name, "sheet", id)}>{question.question}</a> What you hear is a model of this set with an invented band, both sides
        equally loud.
      </p>
      <Sides asks={asks} scene={JSON.stringify(scene)} />
      <Panel title="What is changed" id="changed">
        <Knobs names={hears.knobs} tried={tried} say={sayTried} />
      </Panel>
      <Panel title="What comes in" id="scene">
        <SceneFields scene={scene} say={sayScene} />
      </Panel>
    </main>
  );
}

import { useEffect, useRef, useState } from "preact/compat";
import type { HeardFigure, LiveParts } from "../../../desk/rehearse";
import { Refused } from "../api";
import { saveSound } from "../listen/save-sound";
import { Panel } from "../parts";
import { type Task, TaskLine, useTask } from "../task";
import { askBand } from "./ask-band";
import type { OwnSaid, Played } from "./band-messages";
import { type Player, sides, usePlayer } from "./use-player";

const waitMs = 120;
/** So much of a recording is played over and over, s. */
const ownSeconds = 20;
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

/** What is played, and what it is. */
interface Ready {
  readonly figures: readonly HeardFigure[];
  readonly card: string;
  readonly played?: Played | undefined;
}
/** A band and both strips: the band anew where what comes in has changed, the strips with every turn of a knob. */
async function bothOf(
  what: unknown,
  own: OwnSaid | undefined,
  last: Played["band"] | undefined,
  signal: AbortSignal,
): Promise<{ readonly parts: LiveParts; readonly band: Played["band"] }> {
  const inScene = async () => {
    const bytes = await (await asked("api/rehearse.band", what, signal)).arrayBuffer();
    return new Float32Array(bytes);
  };
  const inOwn = async (said: OwnSaid) => (await askBand({ is: "band", own: said, seconds: ownSeconds }, signal)).band;
  const [parts, band] = await Promise.all([
    asked("api/rehearse.sides", what, signal).then((r): Promise<LiveParts> => r.json()),
    last ?? (own ? inOwn(own) : inScene()),
  ]);
  if (!own) return { parts, band };
  const { gains } = await askBand({ is: "gains", played: { band, detector: parts.detector, sides: parts.sides } }, signal);
  const [a, b] = parts.sides.map((s, i) => ({ ...s, gain: gains[i] }));
  return { parts: { ...parts, sides: [a, b] }, band };
}

interface Asked {
  readonly asks: string;
  readonly scene: string;
  readonly own: OwnSaid | undefined;
}
/** What is played, made ready anew whenever what is asked has changed. */
function useReady({ asks, scene, own }: Asked, task: Task, player: Player): Ready {
  const [said, setSaid] = useState<Ready>({ figures: [], card: "" });
  const heard = useRef<{ readonly scene: string; readonly own: OwnSaid | undefined; readonly band: Played["band"] }>(undefined);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again whenever what is asked has changed
  useEffect(() => {
    const both = () =>
      void task.run("Playing it through the strip", async (signal) => {
        const what: unknown = JSON.parse(asks);
        const { current } = heard;
        const same = current !== undefined && current.own === own && (own !== undefined || current.scene === scene);
        const { parts, band } = await bothOf(what, own, same ? current.band : undefined, signal);
        // what may be played is there before it is said to be
        await player.take(parts, same ? undefined : band);
        heard.current = { scene, own, band };
        const played = { band, detector: parts.detector, sides: parts.sides };
        setSaid((s) => ({ figures: s.figures, card: parts.card, played }));
        const told: Pick<Ready, "figures" | "card"> = await (await asked("api/rehearse", what, signal)).json();
        setSaid({ ...told, played });
        return "Ready.";
      });
    const late = setTimeout(both, waitMs);
    return () => clearTimeout(late);
  }, [asks, own]);
  return said;
}

/** Both sides, and what is measured on them. */
export function Sides(of: Asked) {
  const task = useTask();
  const player = usePlayer();
  const said = useReady(of, task, player);
  const save = () =>
    task.run("Writing both sides", async (signal) => {
      if (said.played) saveSound((await askBand({ is: "wav", played: said.played, card: said.card }, signal)).wav, "rehearsed.wav");
      return "Both sides are in your downloads, left as it is, right as it would be.";
    });
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
      {said.played && (
        <button type="button" className="plain" onClick={() => void save()}>
          Save both sides as a WAV file
        </button>
      )}
    </Panel>
  );
}

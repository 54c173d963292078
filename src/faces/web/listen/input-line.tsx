import type { InputNow } from "../../../readings/sound/input-level";
import type { LiveNow } from "../../../readings/sound/live";
import { Select } from "../parts";
import type { Input } from "./use-input";

const advice: Readonly<Record<InputNow["is"], string>> = {
  cut: "Too loud: the wave is cut off. Turn the input down.",
  "near the top": "Nearly too loud: turn the input down a little.",
  good: "Level is good.",
  quiet: "Very quiet: turn the input up.",
  nothing: "Nothing comes in. Is the lead in the right socket, the input chosen and not muted?",
};
const shape: Readonly<Record<InputNow["is"], string>> = { cut: "▲", "near the top": "△", good: "✓", quiet: "▽", nothing: "○" };
/** The lowest that the bar shows, dB re full scale. */
const floorDbfs = -60;
const share = (dbfs: number): number => Math.max(0, Math.min(1, 1 - dbfs / floorDbfs));

/** Which channel is listened to, and where the signal is. */
function sideSays({ side, sides }: LiveNow): string {
  if (side === "") return "";
  const name = `${side === "left" ? "Left" : "Right"} channel`;
  if (sides === "this one") return ` ${name}: the signal is on this side alone.`;
  return sides === "another" ? ` ${name}, and the other one is louder: choose it below.` : ` ${name}.`;
}
/** Level of the input on a bar from -60 dB to full scale, and what to do about it. */
export function InputLevel({ news }: { readonly news: LiveNow }) {
  const { input: of } = news;
  const bad = of.is === "cut" || of.is === "nothing";
  return (
    <div className="inputlevel">
      <svg viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
        <rect className="whole" width="100" height="6" />
        <rect className={bad ? "part bad" : "part"} width={100 * share(of.nowDbfs)} height="6" />
        <rect className="held" x={Math.max(0, 100 * share(of.peakDbfs) - 0.6)} width="0.6" height="6" />
      </svg>
      <p className={bad ? "said wrong" : "said"} role={bad ? "alert" : undefined}>
        <span aria-hidden="true">{shape[of.is]}</span> {advice[of.is]}
        {of.cutsCount > 0 && of.is !== "cut" ? ` Cut off ${of.cutsCount} times so far.` : ""}
        {sideSays(news)}
      </p>
    </div>
  );
}

/** Which side of a stereo input. */
const Channel = ({ input }: { readonly input: Input }) => (
  <Select
    label="Channel"
    value={input.channel === undefined ? "" : String(input.channel)}
    onChange={input.setSide}
    options={[
      ["", "the louder one"],
      ["0", "left"],
      ["1", "right"],
    ]}
  />
);
/** Which input, and whether it listens; what the browser leaves doubtful. */
export function InputChoice({
  input,
  device,
  choose,
  channelsCount,
}: {
  readonly input: Input;
  readonly device: string;
  readonly choose: (id: string) => void;
  /** of the input, as far as it was heard */
  readonly channelsCount: number;
}) {
  const { state, open, devices } = input;
  return (
    <div className="inputchoice">
      <div className="row">
        <Select
          label="Input"
          value={devices.some(([id]) => id === device) ? device : ""}
          onChange={(id) => {
            choose(id);
            if (state === "on") void input.start(id);
          }}
          options={[["", "the browser's own choice"], ...devices]}
        />
        {state === "on" && channelsCount > 1 && <Channel input={input} />}
        {state === "on" ? (
          <button type="button" className="plain" onClick={input.stop}>
            Stop listening
          </button>
        ) : (
          <button type="button" disabled={state === "opening"} onClick={() => void input.start(device)}>
            {state === "opening" ? "Opening…" : "Listen"}
          </button>
        )}
      </div>
      {open && (
        <p className="quiet">
          {open.label}, {open.sampleRateHz / 1000} kHz.
          {open.doubts.length === 0 ? " Echo cancellation, automatic gain and noise suppression are off, as the browser says." : ""}
        </p>
      )}
      {open?.doubts.map((d) => (
        <p key={d} className="warn" role="alert">
          {d}
        </p>
      ))}
    </div>
  );
}

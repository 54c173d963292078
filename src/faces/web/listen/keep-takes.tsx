import { type TakeKind, takeSlots } from "../../../desk/takes";
import type { Device } from "../../../readings/sound/device";
import { api, heldSays } from "../api";
import { useKept } from "../kept";
import { Panel, Select, Taken } from "../parts";
import { TaskLine, useTask } from "../task";
import type { ToJob } from "./keep-heard";
import type { Taking } from "./use-takes";

const unsaid = { state: "as-left", gain: "", avc: "", level: "", mode: "AM", depth: "" };
type How = typeof unsaid;
/** What noise wants beside the sound: how gain and AVC stood, and the generator's level for a sensitivity. */
const NoiseHow = ({ how, set }: { readonly how: How; readonly set: (how: How) => void }) => {
  const field = (key: "level" | "depth", label: string, such: string) => (
    <label className="field">
      {label}
      <input value={how[key]} placeholder={such} onChange={(e) => set({ ...how, [key]: e.currentTarget.value })} />
    </label>
  );
  return (
    <div className="row">
      <Select
        label="RF gain"
        value={how.gain}
        onChange={(gain) => set({ ...how, gain })}
        options={[
          ["", "not said"],
          ["manual", "by hand, left there"],
          ["automatic", "automatic"],
        ]}
      />
      <Select
        label="AVC"
        value={how.avc}
        onChange={(avc) => set({ ...how, avc })}
        options={[
          ["", "not said"],
          ["off", "off"],
          ["on", "on"],
          ["held", "held"],
        ]}
      />
      {field("level", "Generator's level, for a sensitivity", "5 µV")}
      <Select
        label="It sends"
        value={how.mode}
        onChange={(mode) => set({ ...how, mode })}
        options={[
          ["AM", "AM"],
          ["CW or SSB", "CW or SSB"],
        ]}
      />
      {field("depth", "Depth of modulation", "30 %")}
    </div>
  );
};
/** Kept with its own button, as a sweep of the IF. */
const keptAsSweep = ["bfo", "generator"];

/** Keeps what the recordings came to as one reading of the job. */
export function KeepTakes({
  kind,
  taking,
  clock,
  loop,
  to,
}: {
  readonly kind: TakeKind;
  readonly taking: Taking;
  readonly clock: string;
  readonly loop: Device | undefined;
  readonly to: ToJob;
}) {
  const [how, set] = useKept("listen:takes", unsaid);
  const task = useTask();
  const there = takeSlots[kind].filter((s) => taking.takes[s.id] && !(kind === "response" && keptAsSweep.includes(s.id)));
  const keep = () =>
    task.run("Keeping it", async (signal) => {
      const takes = Object.fromEntries(
        there.flatMap(({ id }) => {
          const take = taking.takes[id];
          if (!take) return [];
          const { heard, told } = take;
          const spectrum = told.spectrum && { ...told.spectrum, power: [...told.spectrum.power] };
          return [[id, { name: heard.name, head: heard.head, health: heard.health, clock, told: { ...told, spectrum } }]];
        }),
      );
      const said = Object.fromEntries(Object.entries(kind === "noise" ? how : { state: how.state }).filter(([, v]) => v !== ""));
      const kept = await api.taken(to.name, { kind, takes, ...said, ...(loop ? { loop } : {}) }, signal);
      to.reload();
      if ("held" in kept) return heldSays(kept);
      return `Kept as reading ${kept.reading}${kept.gave ? ", and given to the sheet on sensitivity" : ""}. The sound itself is not kept.`;
    });
  if (there.length === 0) return null;
  return (
    <Panel title="Keep it" id="keep">
      <Taken value={how.state} onChange={(state) => set({ ...how, state })} />
      {kind === "noise" && <NoiseHow how={how} set={set} />}
      <button type="button" disabled={taking.live !== undefined} onClick={() => void keep()}>
        Keep as a reading
      </button>
      <TaskLine of={task} />
    </Panel>
  );
}

import { useState } from "preact/compat";
import { chassisSaid, chassisStates } from "../../ask/chassis";
import { bodyOhm, deadMostV } from "../../job/chassis-proof";
import type { JobView } from "../../job/view";
import type { Issue } from "../../units/issue";
import { printValue } from "../../units/print";
import { api } from "./api";
import { useKept } from "./kept";
import { Issues, Panel } from "./parts";
import { issuesOf } from "./task";

const claims = {
  isolated: "isolated: it has its own power transformer, and you have measured that",
  "live-proved-dead": "live, but behind a line isolation transformer and proved dead",
  live: "live: one side of the line reaches the chassis",
  unstated: "no longer known",
} as const;
const dead = `volts from chassis to earth across ${printValue(bodyOhm, "resistance")}, set on, behind the transformer (${printValue(deadMostV, "voltage")} at most)`;

/** The act that says how the chassis stands to the line: with what was measured, and said once more. Until then it counts as live. */
export function Chassis({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const [said, setSaid] = useKept<Record<string, string>>(`chassis:${name}`, {});
  const [sure, setSure] = useState(false);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const state = chassisStates.find((s) => s === said.state);
  const field = (key: string, label: string) => (
    <label className="field wide">
      {label}
      <input value={said[key] ?? ""} onChange={(e) => setSaid({ ...said, [key]: e.currentTarget.value })} />
    </label>
  );
  const record = async () => {
    try {
      await api.chassis(name, { ...said, confirm: state ?? "" });
      setSaid({});
      setSure(false);
      setIssues([]);
      reload();
    } catch (e) {
      setSure(false);
      setIssues(issuesOf(e));
    }
  };
  return (
    <Panel title="The chassis" id="chassis">
      <p>
        It is <strong>{chassisSaid[view.chassis]}</strong>.
      </p>
      <p>Prove it: what you measured, with what, and how. It holds until somebody works on the line side.</p>
      <fieldset>
        <legend>What it is</legend>
        {chassisStates.map((s) => (
          <label key={s} className="pick">
            <input type="radio" name="chassis-claim" checked={state === s} onChange={() => setSaid({ ...said, state: s })} />
            {claims[s]}
          </label>
        ))}
      </fieldset>
      {state === "isolated" && field("ohms", "Unplugged, switch on: ohms from each blade of the plug to the chassis, the lower of the two")}
      {state === "live-proved-dead" && (
        <>
          {field("transformer", "The line isolation transformer: its rating")}
          {field("voltsOneWay", `Plug one way round: ${dead}`)}
          {field("voltsOtherWay", "Plug the other way round: the same")}
        </>
      )}
      {(state === "isolated" || state === "live-proved-dead") && (
        <>
          {field("meter", "Meter")}
          {field("how", "What was traced, and how it was measured")}
        </>
      )}
      <Issues of={issues} />
      {state && !sure && (
        <button type="button" onClick={() => setSure(true)}>
          Go on
        </button>
      )}
      {state && sure && (
        <p className="buttons">
          <button type="button" onClick={() => void record()}>
            Once more: {claims[state]}. Record it
          </button>
          <button type="button" className="plain" onClick={() => setSure(false)}>
            Not yet
          </button>
        </p>
      )}
    </Panel>
  );
}

import { useState } from "preact/compat";
import { whyNotEarthed } from "../../../desk/stepped-plan";
import type { JobView } from "../../../job/view";
import { generatorLead } from "../../../standards/generator-lead";
import { api } from "../api";
import { CantWait } from "../cant-wait";
import { useKept } from "../kept";
import { Cautions, Panel, Taken } from "../parts";
import { TaskLine, useTask } from "../task";
import { Asked, type Typed, usual } from "./asked";
import { Running } from "./running";
import { overSerial, type SerialPortOfBrowser, serial } from "./serial";
import { useSweep } from "./use-sweep";

/** A port that the person chooses in the browser's own list. */
const Lead = ({ what, port, choose }: { readonly what: string; readonly port: boolean; readonly choose: () => void }) => (
  <p className="lead">
    <button type="button" className="plain" onClick={choose}>
      {port ? `Another port for the ${what}` : `Choose the ${what}'s port`}
    </button>{" "}
    {port ? "chosen" : "none yet"}
  </p>
);

/** What was stepped, kept in the job by one act. */
function Keep({ csv, name, reload }: { readonly csv: string; readonly name: string; readonly reload: () => void }) {
  const [state, setState] = useState("as-left");
  const task = useTask();
  const keep = () =>
    void task.run("Keeping it", async (signal) => {
      const file = new File([csv], `sweep-${new Date().toISOString().slice(0, 16).replace(":", "")}.csv`, { type: "text/csv" });
      const { reading } = await api.read(name, { as: "if-sweep", state, record: "yes" }, file, signal);
      reload();
      return `Recorded ${reading.id}.`;
    });
  return (
    <>
      <div className="row">
        <Taken value={state} onChange={setState} />
        <button type="button" onClick={keep}>
          Keep this reading
        </button>
      </div>
      <CantWait act="read" />
      <TaskLine of={task} />
    </>
  );
}

interface At {
  readonly view: JobView;
  readonly name: string;
  readonly reload: () => void;
}
type Leads = Partial<Record<"generator" | "voltmeter", SerialPortOfBrowser>>;
/** What is asked of the sweep, the act that begins it, and how it goes. */
function Stepping({ view, name, reload, leads }: At & { readonly leads: Leads }) {
  const [typed, setTyped] = useKept<Typed>(`sweep-by-instruments:${name}`, usual(view));
  const task = useTask();
  const sweep = useSweep();
  const { generator, voltmeter } = leads;
  const earthed = whyNotEarthed(view.chassis);
  const lacks = earthed
    ? `This wants ${earthed}.`
    : !generator
      ? "Choose the generator's port first."
      : !voltmeter
        ? "Choose the voltmeter's port first."
        : "";
  const begin = () =>
    void task.run("Stepping", async () => {
      if (!generator || !voltmeter) return undefined;
      const over = (port: SerialPortOfBrowser) => overSerial(port, Number(typed.baud));
      const said = { ...typed, points: Number(typed.points), readings: Number(typed.readings) };
      await sweep.run(said, { generator: over(generator), voltmeter: over(voltmeter) });
      return "Stepped to its end.";
    });
  const running = sweep.state.running !== "no";
  return (
    <Panel title="The sweep" id="steps">
      <Asked typed={typed} say={(key) => (value) => setTyped({ ...typed, [key]: value })} />
      {!running && (
        <button type="button" onClick={begin} disabled={lacks !== ""} {...(lacks ? { "aria-describedby": "lacks" } : {})}>
          Output on, and begin
        </button>
      )}
      {lacks !== "" && (
        <p id="lacks" className="quiet">
          {lacks}
        </p>
      )}
      {!running && <TaskLine of={task} />}
      <Running of={sweep} all={typed.points} />
      {!running && sweep.state.csv !== "" && <Keep csv={sweep.state.csv} name={name} reload={reload} />}
    </Panel>
  );
}

/** A generator and a meter at this browser's serial ports: they do the typing. */
export function SweepPage(at: At) {
  const [leads, setLeads] = useState<Leads>({});
  const choose = (what: keyof Leads) =>
    void serial()
      ?.requestPort()
      .then((port) => setLeads((l) => ({ ...l, [what]: port })))
      // closed without choosing
      .catch(() => undefined);
  return (
    <main>
      <h1>Sweep by generator and meter</h1>
      <p>They step and read; nothing is typed. By a network socket instead: fettle sweep, at a terminal.</p>
      {serial() ? (
        <>
          <Panel title="Before the output goes on" id="lead">
            <Cautions of={generatorLead} />
          </Panel>
          <Panel title="Leads" id="leads">
            <Lead what="generator" port={leads.generator !== undefined} choose={() => choose("generator")} />
            <Lead what="voltmeter" port={leads.voltmeter !== undefined} choose={() => choose("voltmeter")} />
          </Panel>
          <Stepping {...at} leads={leads} />
        </>
      ) : (
        <p className="warn">
          This browser has no serial ports for a page to use. Another one may; at a terminal, fettle sweep reaches instruments by the
          network.
        </p>
      )}
    </main>
  );
}

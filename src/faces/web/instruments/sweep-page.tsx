import { useRef, useState } from "preact/compat";
import { type SweepTyped, whyNotEarthed } from "../../../desk/stepped-plan";
import type { JobView } from "../../../job/view";
import { generatorLead } from "../../../standards/generator-lead";
import { printValue } from "../../../units/print";
import { api } from "../api";
import { useKept } from "../kept";
import { Cautions, Panel, Select } from "../parts";
import { Raw } from "../readings/told";
import { TaskLine, useTask } from "../task";
import { overSerial, type SerialPortOfBrowser, serial } from "./serial";
import { type SweepHands, useSweep } from "./use-sweep";

type Typed = Readonly<Record<Exclude<keyof SweepTyped, "points" | "readings" | "reads" | "holds" | "avc">, string>> & {
  readonly points: string;
  readonly readings: string;
  readonly reads: SweepTyped["reads"];
  readonly holds: SweepTyped["holds"];
  readonly avc: SweepTyped["avc"];
  readonly baud: string;
};
const around = (view: JobView, offHz: number): string => {
  const hz = view.set.strip?.intermediateFrequency.value;
  return hz === undefined ? "" : printValue(hz + offHz, "frequency", 100);
};
const usual = (view: JobView): Typed => ({
  from: around(view, -12e3),
  to: around(view, 12e3),
  points: "41",
  level: "-60 dBm",
  most: "-20 dBm",
  settle: "0.5 s",
  readings: "5",
  narrowest: "2 kHz",
  reads: "ac",
  modulation: "30",
  tone: "400 Hz",
  within: "0.2 dB",
  holds: "level",
  avc: "clamped",
  baud: "9600",
});

interface Said {
  readonly typed: Typed;
  readonly say: (key: keyof Typed) => (value: string) => void;
}
const Field = ({ typed, say, at, label }: Said & { readonly at: keyof Typed; readonly label: string }) => (
  <label className="field">
    {label}
    <input value={typed[at]} onChange={(e) => say(at)(e.target.value)} />
  </label>
);
/** What is seldom said of a sweep, folded. */
const Seldom = (said: Said) => (
  <details>
    <summary>Settling, readings, modulation</summary>
    <div className="row">
      <Field {...said} at="settle" label="Settle after each step" />
      <Field {...said} at="readings" label="Readings at each step" />
      <Field {...said} at="narrowest" label="Narrowest width the set may show" />
      <Select
        label="The meter reads"
        value={said.typed.reads}
        onChange={said.say("reads")}
        options={[
          ["ac", "AC volts of the sound"],
          ["dc", "DC volts of the detector"],
        ]}
      />
      <Field {...said} at="modulation" label="Modulation, % (0 for none)" />
      <Field {...said} at="tone" label="Frequency of the modulation" />
      <Field {...said} at="within" label="Generator and meter, from point to point" />
      <Field {...said} at="baud" label="Bits a second of both ports" />
    </div>
  </details>
);
/** What is asked of a sweep: the few things that matter first. */
function Asked(said: Said) {
  return (
    <>
      <div className="row">
        <Field {...said} at="from" label="From" />
        <Field {...said} at="to" label="To" />
        <Field {...said} at="points" label="Frequencies" />
        <Field {...said} at="level" label="Generator's level" />
        <Field {...said} at="most" label="Never above" />
        <Select
          label="Held"
          value={said.typed.holds}
          onChange={said.say("holds")}
          options={[
            ["level", "the level: the meter is read"],
            ["output", "the output: the generator is raised"],
          ]}
        />
        <Select
          label="The set's AVC"
          value={said.typed.avc}
          onChange={said.say("avc")}
          options={[
            ["clamped", "clamped"],
            ["off", "off"],
            ["on", "on"],
          ]}
        />
      </div>
      <Seldom {...said} />
    </>
  );
}

/** A port that the person chooses in the browser's own list. */
const Lead = ({ what, port, choose }: { readonly what: string; readonly port: boolean; readonly choose: () => void }) => (
  <p className="lead">
    <button type="button" className="plain" onClick={choose}>
      {port ? `Another port for the ${what}` : `Choose the ${what}'s port`}
    </button>{" "}
    {port ? "chosen" : "none yet"}
  </p>
);

/** The sweep as it runs: where it is, its points, the ways to pause and to end it. */
function Running({ of: { state, pause, goOn, end }, all }: { readonly of: SweepHands; readonly all: string }) {
  const { points } = state;
  const hz = points.map((p) => p.frequencyHz / 1e3);
  return (
    <>
      {state.mayBeOn !== "" && (
        <p className="maybeon" role="alert">
          {state.mayBeOn}
        </p>
      )}
      {state.running !== "no" && (
        <>
          <p className="stepcount" role="status">
            {state.running === "paused" ? "Paused, the output off. " : state.running === "ending" ? "Ending… " : ""}
            {state.doneCount} of {all}
          </p>
          <button type="button" className="plain" onClick={state.running === "paused" ? goOn : pause} disabled={state.running === "ending"}>
            {state.running === "paused" ? "Go on" : "Pause"}
          </button>{" "}
          <button type="button" onClick={end} disabled={state.running === "ending"}>
            End it, output off
          </button>
        </>
      )}
      {points.length > 1 && (
        <Raw
          of={{
            title: "what is read",
            xLabel: "frequency, kHz",
            yLabel: "level, dB",
            traces: [{ label: "as read", x: hz, y: points.map((p) => p.levelDb) }],
          }}
        />
      )}
      {state.running === "no" && state.isOff && <p>The output is off: the generator says so.</p>}
      {state.missed.length > 0 && (
        <p>
          Nothing was read at {state.missed.length} of {all}: {[...new Set(state.missed.map((m) => m.why))].join("; ")}.
        </p>
      )}
    </>
  );
}

/** A generator and a meter at this browser's serial ports: they do the typing. */
export function SweepPage({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const [typed, setTyped] = useKept<Typed>(`sweep-by-instruments:${name}`, usual(view));
  const ports = useRef<Partial<Record<"generator" | "voltmeter", SerialPortOfBrowser>>>({});
  const [chosen, setChosen] = useState({ generator: false, voltmeter: false });
  const [asLeft, setAsLeft] = useState("as-left");
  const task = useTask();
  const sweep = useSweep();
  const say = (key: keyof Typed) => (value: string) => setTyped({ ...typed, [key]: value });
  const choose = (what: "generator" | "voltmeter") =>
    void serial()
      ?.requestPort()
      .then((port) => {
        ports.current[what] = port;
        setChosen((c) => ({ ...c, [what]: true }));
      })
      // closed without choosing
      .catch(() => undefined);
  const begin = () =>
    void task.run("Stepping", async () => {
      const { generator, voltmeter } = ports.current;
      if (!generator || !voltmeter) return undefined;
      const lead = (port: SerialPortOfBrowser) => overSerial(port, Number(typed.baud));
      await sweep.run(
        { ...typed, points: Number(typed.points), readings: Number(typed.readings) },
        { generator: lead(generator), voltmeter: lead(voltmeter) },
      );
      return "Stepped to its end.";
    });
  const keep = () =>
    void task.run("Keeping it", async (signal) => {
      const file = new File([sweep.state.csv], `sweep-${new Date().toISOString().slice(0, 16).replace(":", "")}.csv`, { type: "text/csv" });
      const { reading } = await api.read(name, { as: "if-sweep", state: asLeft, record: "yes" }, file, signal);
      reload();
      return `Recorded ${reading.id}.`;
    });
  const running = sweep.state.running !== "no";
  const earthed = whyNotEarthed(view.chassis);
  const lacks = earthed
    ? `This wants ${earthed}.`
    : !chosen.generator
      ? "Choose the generator's port first."
      : !chosen.voltmeter
        ? "Choose the voltmeter's port first."
        : "";
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
            <Lead what="generator" port={chosen.generator} choose={() => choose("generator")} />
            <Lead what="voltmeter" port={chosen.voltmeter} choose={() => choose("voltmeter")} />
          </Panel>
          <Panel title="The sweep" id="steps">
            <Asked typed={typed} say={say} />
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
            {!running && sweep.state.csv !== "" && (
              <div className="row">
                <Select
                  label="Taken"
                  value={asLeft}
                  onChange={setAsLeft}
                  options={[
                    ["as-found", "as found"],
                    ["as-left", "as left"],
                  ]}
                />
                <button type="button" onClick={keep}>
                  Keep this reading
                </button>
              </div>
            )}
          </Panel>
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

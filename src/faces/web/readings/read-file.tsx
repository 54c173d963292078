import { useRef } from "preact/compat";
import type { Recognised } from "../../../desk/recognise";
import type { JobView } from "../../../job/view";
import { CantWait } from "../cant-wait";
import { here } from "../opened";
import { Panel, Select, Taken } from "../parts";
import { TaskLine } from "../task";
import { More } from "./more";
import { Raw, Told } from "./told";
import { type Dropped, kinds, useFile } from "./use-file";

/** Only what the file can't say by itself. */
function Asked({ view, of: d, is }: { readonly view: JobView; readonly of: Dropped; readonly is: Extract<Recognised, { is: "reading" }> }) {
  const sweeps = Object.entries(kinds).filter(([k]) => ["if-sweep", "sweep", "resonance", d.how.as].includes(k));
  return (
    <div className="row">
      {is.asks.includes("which sweep") && <Select label="What it is" value={d.how.as} onChange={d.change("as")} options={sweeps} />}
      <Taken value={d.how.state} onChange={d.change("state")} />
      {is.asks.includes("unit") && (
        <label className="field">
          Unit of its frequencies
          <input value={d.how.unit} placeholder="kHz" onChange={(e) => d.change("unit")(e.currentTarget.value)} />
        </label>
      )}
      {(is.asks.includes("band") || d.how.as === "dial") && (
        <>
          <Select
            label="Band"
            value={d.how.band}
            onChange={d.change("band")}
            options={view.set.bands.map((b) => [b.id, b.label] as const)}
          />
          <label className="field">
            Main dial set to
            <input value={d.how.setPoint} placeholder="3.5 MHz dot" onChange={(e) => d.change("setPoint")(e.currentTarget.value)} />
          </label>
        </>
      )}
    </div>
  );
}

const keepSays = {
  reading: "Keep this reading",
  chart: "Write it on the card",
  photograph: "Keep this photograph",
  job: "Take it in as a job of its own",
} as const;
/** What a device at the chassis may keep of it. */
const mayKeep = (is: Recognised): boolean => is.is !== "unknown" && (here || is.is === "reading" || is.is === "chart");

/** What the file is, how it looks, and the one act that keeps it. */
function Look({ of: d, is }: { readonly of: Dropped; readonly is: Recognised }) {
  const p = d.preview;
  return (
    <div className="preview">
      <p>
        <strong>{is.says}.</strong> {d.file?.name}
      </p>
      {p ? <Told reading={p.reading} as={is.shown} /> : is.shown && <Raw of={is.shown} />}
      {p?.fit && (
        <p>
          The strip fits it to {p.fit.rmsDb.toFixed(2)} dB rms at {p.fit.usedPoints} points. It tells {p.fit.directionsCount} independent
          things about {p.fit.unknownsCount} unknowns; the rest keeps its stated uncertainty.
        </p>
      )}
      {is.is !== "unknown" && mayKeep(is) && (is.is !== "reading" || p) && (
        <button type="button" onClick={d.keep}>
          {keepSays[is.is]}
        </button>
      )}
      {!mayKeep(is) && is.is !== "unknown" && <p className="quiet">It is kept on Fettle's own machine, not from this device.</p>}
      <button type="button" className="plain" onClick={d.drop}>
        Leave it
      </button>
    </div>
  );
}

/** Drop any file: it is told by its content, drawn and read out, and kept by one act. */
export function ReadFile({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const picker = useRef<HTMLInputElement>(null);
  const d = useFile(view, name, reload, () => {
    if (picker.current) picker.current.value = "";
  });
  return (
    <Panel title="Read a file in" id="read">
      <label
        className="drop"
        onDragOver={(e) => e.preventDefault()}
        onDrop={(e) => {
          e.preventDefault();
          d.take(e.dataTransfer?.files[0]);
        }}
      >
        Drop a sweep, log, recording, chart, photograph or exported job here, or choose one
        <input ref={picker} type="file" onChange={(e) => d.take(e.currentTarget.files?.[0])} />
      </label>
      {d.is?.is === "reading" && <Asked view={view} of={d} is={d.is} />}
      <More view={view} how={d.how} change={d.change} />
      <CantWait act="read" />
      <TaskLine of={d.task} />
      {d.is && d.file && <Look of={d} is={d.is} />}
    </Panel>
  );
}

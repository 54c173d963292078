import { scaleLinear } from "d3-scale";
import { line } from "d3-shape";
import { useRef, useState } from "react";
import type { readingKinds } from "../../job/format";
import { steps } from "../../job/steps";
import { type JobView, readingsAndDials } from "../../job/view";
import { api, type ReadPreview } from "./api";
import { useKept } from "./kept";
import { here } from "./opened";
import { Panel, Select } from "./parts";
import { Changed } from "./set/changed";
import { TaskLine, useTask } from "./task";

const kinds: Readonly<Record<(typeof readingKinds)[number], string>> = {
  "if-sweep": "sweep of this set's IF strip (the strip is fitted to it)",
  sweep: "sweep of something else",
  resonance: "sweep of one resonance",
  recording: "recording of sound",
  table: "table of numbers",
  dial: "zero beats: scale reading, frequency, up or down",
};

/** The numbers of a reading as they came, before anything is made of them. */
function Raw({ columns, label }: { readonly columns: Readonly<Record<string, readonly number[]>>; readonly label: string }) {
  const x = columns.frequencyHz;
  const y = columns.levelDb;
  if (!x || !y || x.length < 2) return null;
  const sx = scaleLinear()
    .domain([x[0], x[x.length - 1]])
    .range([8, 632]);
  const sy = scaleLinear()
    .domain([Math.min(...y), Math.max(...y)])
    .range([172, 8]);
  const path =
    line<number>()
      .x((i) => sx(x[i]))
      .y((i) => sy(y[i]))
      .digits(1)(Array.from(x.keys())) ?? "";
  return (
    <svg
      className="raw"
      viewBox="0 0 640 180"
      role="img"
      aria-label={`${label}: ${x.length} points from ${(x[0] / 1e3).toFixed(1)} to ${(x[x.length - 1] / 1e3).toFixed(1)} kHz`}
    >
      <path d={path} />
    </svg>
  );
}

/** Drop a file, see it drawn and read out, say what it is, then keep it. */
function ReadFile({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const [file, setFile] = useState<File>();
  const [how, setHow] = useKept(`read:${name}`, {
    as: "if-sweep",
    state: "as-found",
    stage: "",
    instrument: "",
    thermal: "warm",
    unit: "",
    step: "",
    lineVoltage: "",
    sMeterLaw: "",
    fit: "yes",
    band: (view.set.bands.find((b) => b.spread) ?? view.set.bands[0])?.id ?? "",
    setPoint: "",
  });
  const [preview, setPreview] = useState<ReadPreview>();
  const task = useTask();
  const picker = useRef<HTMLInputElement>(null);
  const look = (f: File, h: typeof how, record: boolean) =>
    task.run(record ? "Recording it" : "Reading it", async (signal) => {
      try {
        const r = await api.read(name, { ...h, record: record ? "yes" : "no" }, f, signal);
        setPreview(record ? undefined : r);
        if (!record) return undefined;
        setFile(undefined);
        if (picker.current) picker.current.value = "";
        reload();
        return `Recorded ${r.reading.id}.`;
      } catch (e) {
        setPreview(undefined);
        throw e;
      }
    });
  const take = (f: File | undefined) => {
    if (!f) return;
    setFile(f);
    void look(f, how, false);
  };
  const change = (key: keyof typeof how) => (value: string) => {
    const next = { ...how, [key]: value };
    setHow(next);
    if (file) void look(file, next, false);
  };
  return (
    <Panel title="Read a file in" id="read">
      <label
        className="drop"
        onDragOver={(e) => e.preventDefault()}
        onDrop={(e) => {
          e.preventDefault();
          take(e.dataTransfer.files[0]);
        }}
      >
        Drop a sweep, a table or a recording here, or choose one
        <input ref={picker} type="file" onChange={(e) => take(e.target.files?.[0])} />
      </label>
      <div className="row">
        <Select label="What it is" value={how.as} onChange={change("as")} options={Object.entries(kinds)} />
        <Select
          label="Taken"
          value={how.state}
          onChange={change("state")}
          options={[
            ["as-found", "as found"],
            ["as-left", "as left"],
          ]}
        />
        <Select
          label="Stage"
          value={how.stage}
          onChange={change("stage")}
          options={[["", "by its kind"], ...view.set.stages.map((s) => [s.id, s.label] as const)]}
        />
        <Select
          label="Instrument"
          value={how.instrument}
          onChange={change("instrument")}
          options={[["", "not named"], ...view.instruments.map((i) => [i.id, i.label] as const)]}
        />
        <Select
          label="Set"
          value={how.thermal}
          onChange={change("thermal")}
          options={["warm", "warming", "cold"].map((t) => [t, t] as const)}
        />
        {how.as === "dial" && (
          <>
            <Select label="Band" value={how.band} onChange={change("band")} options={view.set.bands.map((b) => [b.id, b.label] as const)} />
            <label className="field">
              Main dial stood at
              <input value={how.setPoint} placeholder="3.5 MHz dot" onChange={(e) => change("setPoint")(e.target.value)} />
            </label>
          </>
        )}
      </div>
      <details>
        <summary>More about the reading</summary>
        <div className="row">
          <label className="field">
            Line voltage when it was taken
            <input value={how.lineVoltage} placeholder="121 V" onChange={(e) => change("lineVoltage")(e.target.value)} />
          </label>
          <label className="field">
            Unit of the frequencies, where the file has no heading
            <input value={how.unit} placeholder="kHz" onChange={(e) => change("unit")(e.target.value)} />
          </label>
          <Select
            label="S units in the file"
            value={how.sMeterLaw}
            onChange={change("sMeterLaw")}
            options={[
              ["", "are refused: their law is not known"],
              ["iaru", "follow IARU Region 1 R.1"],
            ]}
          />
          <Select
            label="Step of the job"
            value={how.step}
            onChange={change("step")}
            options={[["", "by its kind"], ...steps.map((s) => [s.id, `${s.id} ${s.title}`] as const)]}
          />
          <Select
            label="The strip's model"
            value={how.fit}
            onChange={change("fit")}
            options={[
              ["yes", "is fitted to a sweep of it"],
              ["no", "stays as it is"],
            ]}
          />
        </div>
      </details>
      <TaskLine of={task} />
      {preview && file && (
        <div className="preview">
          <Told reading={preview.reading} />
          {preview.fit && (
            <p>
              The strip fits it to {preview.fit.rmsDb.toFixed(2)} dB rms at {preview.fit.usedPoints} points. It tells{" "}
              {preview.fit.directionsCount} independent things about {preview.fit.unknownsCount} unknowns; the rest keeps its stated
              uncertainty.
            </p>
          )}
          <button type="button" onClick={() => void look(file, how, true)}>
            Keep this reading
          </button>
          <button
            type="button"
            className="plain"
            onClick={() => {
              setFile(undefined);
              setPreview(undefined);
            }}
          >
            Leave it
          </button>
        </div>
      )}
    </Panel>
  );
}

/** Readings kept so far, as found beside as left; zero beats by their dial. */
function ReadingList({ view, name }: { readonly view: JobView; readonly name: string }) {
  const { readings, dials } = readingsAndDials(view);
  return (
    <Panel title="Readings kept" id="kept">
      {view.readings.length === 0 && <p>None yet.</p>}
      {dials.map((d) => (
        <p key={d}>
          <a href={`#/job/${encodeURIComponent(name)}/dial`}>{d}</a>
        </p>
      ))}
      {readings.map((r) => (
        <details key={r.id}>
          <summary>
            {r.file.name}: {r.as}, {r.state.replace("-", " ")}
            {r.invented ? ", invented" : ""}
          </summary>
          <Told reading={r} />
          {r.invented && <p className="warn">Invented: {r.invented}</p>}
        </details>
      ))}
    </Panel>
  );
}

/** What a reading tells: drawn, read out, with its warnings. */
const Told = ({ reading: r }: { readonly reading: JobView["readings"][number] }) => (
  <>
    <Raw columns={r.columns} label={r.file.name} />
    <table className="figures">
      <tbody>
        {r.figures.map((f) => (
          <tr key={f.name}>
            <th scope="row">{f.name}</th>
            <td>{f.text}</td>
          </tr>
        ))}
      </tbody>
    </table>
    {r.warnings.map((w) => (
      <p key={w} className="warn">
        {w}
      </p>
    ))}
  </>
);

/** Photographs: shrunk here to what a record needs, then kept with the job. */
function Photographs({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const task = useTask();
  const add = (files: FileList | null) =>
    task.run("Keeping photographs", async (signal) => {
      const names: string[] = [];
      for (const f of files ?? []) {
        await api.attach(name, "", await shrunk(f), signal);
        names.push(f.name);
        reload();
      }
      return names.length === 0 ? undefined : `Kept ${names.join(", ")}.`;
    });
  const pictures = view.inForce.flatMap((e) => (e.kind === "attachment" ? [e] : []));
  return (
    <Panel title="Photographs" id="photos">
      <label className="field">
        Add photographs (JPEG or PNG)
        <input type="file" accept="image/jpeg,image/png" multiple onChange={(e) => void add(e.target.files)} />
      </label>
      <TaskLine of={task} />
      <ul className="photos">
        {pictures.map((p) => (
          <li key={p.id}>
            <a href={api.fileUrl(name, p.hash)}>
              <img src={api.fileUrl(name, p.hash)} alt={`${p.name}, ${p.at.slice(0, 10)}`} loading="lazy" />
            </a>
          </li>
        ))}
      </ul>
    </Panel>
  );
}

const longestEdgePx = 2000;
async function shrunk(f: File): Promise<File> {
  const bitmap = await createImageBitmap(f).catch(() => undefined);
  if (!bitmap || Math.max(bitmap.width, bitmap.height) <= longestEdgePx) return f;
  const scale = longestEdgePx / Math.max(bitmap.width, bitmap.height);
  const canvas = new OffscreenCanvas(Math.round(bitmap.width * scale), Math.round(bitmap.height * scale));
  canvas.getContext("2d")?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  const blob = await canvas.convertToBlob({ type: "image/jpeg", quality: 0.85 });
  return blob.size < f.size ? new File([blob], f.name.replace(/\.png$/i, ".jpg"), { type: "image/jpeg" }) : f;
}

/** Files in, what was read, photographs; and what was recorded, each with the way to take it back. */
export const ReadingsPage = ({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) => (
  <main className="two">
    <div>
      <h1>Readings</h1>
      <ReadFile view={view} name={name} reload={reload} />
      <ReadingList view={view} name={name} />
      {here && <Photographs view={view} name={name} reload={reload} />}
    </div>
    <aside>
      <Changed view={view} name={name} reload={reload} />
    </aside>
  </main>
);

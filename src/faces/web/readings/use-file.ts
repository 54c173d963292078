import { useRef, useState } from "preact/compat";
import { type Recognised, recognise } from "../../../desk/recognise";
import type { readingKinds } from "../../../job/format";
import type { JobView } from "../../../job/view";
import { api, type ReadPreview } from "../api";
import { useKept } from "../kept";
import { goTo, jobLink } from "../links";
import { type Task, useTask } from "../task";
import { shrunk } from "./photographs";

export const kinds: Readonly<Record<(typeof readingKinds)[number], string>> = {
  "if-sweep": "sweep of this set's IF strip (the strip is fitted to it)",
  sweep: "sweep of something else",
  resonance: "sweep of one resonance",
  recording: "recording of sound",
  table: "table of numbers",
  dial: "zero beats: scale reading, frequency, up or down",
};

const unsaid = {
  as: "if-sweep",
  state: "as-found",
  stage: "",
  instrument: "",
  thermal: "",
  unit: "",
  step: "",
  lineVoltage: "",
  sMeterLaw: "",
  fit: "yes",
  band: "",
  setPoint: "",
};
export type How = typeof unsaid;
/** A file that was dropped: what it is by its content, what is said of it, what comes of it. */
export interface Dropped {
  readonly file: File | undefined;
  readonly is: Recognised | undefined;
  readonly how: How;
  readonly preview: ReadPreview | undefined;
  readonly task: Task;
  readonly take: (file: File | undefined) => void;
  readonly change: (key: keyof How) => (value: string) => void;
  readonly keep: () => void;
  readonly drop: () => void;
}

/** Keeps what is no reading where it belongs; where the page goes then. */
async function keptElsewhere(name: string, f: File, found: Recognised, signal: AbortSignal): Promise<string | undefined> {
  switch (found.is) {
    case "photograph":
      await api.attach(name, "", await shrunk(f), signal);
      return undefined;
    case "chart":
      await api.append(name, [{ kind: "form", form: found.card, fields: found.fields }]);
      return jobLink(name, "records", found.card);
    case "job":
      return jobLink((await api.import(f, signal)).name);
    default:
      return undefined;
  }
}

/** Takes a file as what its content says, shows what would come of it, and keeps it where it belongs. */
export function useFile(view: JobView, name: string, reload: () => void, emptied: () => void): Dropped {
  const [file, setFile] = useState<File>();
  const [is, setIs] = useState<Recognised>();
  const band = (view.set.bands.find((b) => b.spread) ?? view.set.bands[0])?.id ?? "";
  const [how, setHow] = useKept<How>(`read:${name}`, { ...unsaid, band });
  const [preview, setPreview] = useState<ReadPreview>();
  const task = useTask();
  const bytes = useRef<Uint8Array>(new Uint8Array());
  const drop = () => {
    setFile(undefined);
    setIs(undefined);
    setPreview(undefined);
    emptied();
  };
  const look = (f: File, h: How, record: boolean) =>
    task.run(record ? "Recording it" : "Reading it", async (signal) => {
      setPreview(undefined);
      const r = await api.read(name, { ...h, record: record ? "yes" : "no" }, f, signal);
      if (!record) return void setPreview(r);
      drop();
      reload();
      return `Recorded ${r.reading.id}.`;
    });
  const take = (f: File | undefined) => {
    if (!f) return;
    setFile(f);
    setPreview(undefined);
    void f.arrayBuffer().then((b) => {
      bytes.current = new Uint8Array(b);
      const found = recognise(view, bytes.current, f.name, how.unit);
      setIs(found);
      if (found.is !== "reading") return;
      const next = { ...how, as: found.as };
      setHow(next);
      void look(f, next, false);
    });
  };
  const change = (key: keyof How) => (value: string) => {
    const next = { ...how, [key]: value };
    setHow(next);
    if (!file || is?.is !== "reading") return;
    if (key === "unit") setIs(recognise(view, bytes.current, file.name, value));
    void look(file, next, false);
  };
  const keepOther = (f: File, found: Recognised) =>
    task.run("Keeping it", async (signal) => {
      const to = await keptElsewhere(name, f, found, signal);
      drop();
      if (to !== undefined) goTo(to);
      reload();
      return `Kept ${f.name}.`;
    });
  const keep = () => {
    if (!file || !is) return;
    void (is.is === "reading" ? look(file, how, true) : keepOther(file, is));
  };
  return { file, is, how, preview, task, take, change, keep, drop };
}

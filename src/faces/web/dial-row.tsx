import { beatsOfRow, sayRow } from "../../desk/read-in/beat-row";
import type { JobView } from "../../job/view";
import { api, heldSays } from "./api";
import { useKept } from "./kept";
import { TaskLine, useTask } from "./task";

interface At {
  readonly view: JobView;
  readonly name: string;
  readonly reload: () => void;
  readonly band: string;
  readonly setPoint: string;
  readonly approach: "up" | "down";
  readonly thermal: string;
}
/** A row of pointer readings: the marks follow, and are shown before anything is kept. */
export function BeatRow({ view, name, reload, band, setPoint, approach, thermal }: At) {
  const [draft, setDraft] = useKept(`dial-row:${name}`, { readings: "", every: "", from: "" });
  const task = useTask();
  const begun = draft.readings.trim().includes(" ");
  const row = begun ? beatsOfRow(view, { ...draft, band, setPoint, approach }) : undefined;
  const said = !row
    ? "Turn from mark to mark and type what the pointer says, with spaces between; a dash leaves a mark out."
    : row.ok
      ? `${sayRow(row.value)} If the dial is a whole mark off, say the first mark.`
      : `Expected ${row.issues[0].expected}; read “${row.issues[0].read}”.`;
  const record = () =>
    task.run("Recording them", async () => {
      const r = await api.zeroBeats(name, { ...draft, band, setPoint, approach, thermal });
      setDraft({ ...draft, readings: "" });
      reload();
      return heldSays(r) ?? "Recorded.";
    });
  const field = (k: keyof typeof draft, label: string, placeholder: string) => (
    <label className={k === "readings" ? "field wide" : "field"}>
      {label}
      <input value={draft[k]} placeholder={placeholder} onChange={(e) => setDraft({ ...draft, [k]: e.currentTarget.value })} />
    </label>
  );
  return (
    <details className="beatrow">
      <summary>Several marks in a row</summary>
      <form
        className="row"
        onSubmit={(e) => {
          e.preventDefault();
          if (row?.ok) void record();
        }}
      >
        {field("readings", "Pointer readings", "4.049 5.088 - 7.262")}
        {field("every", "Marks every", "as the readings tell")}
        {field("from", "First mark", "as the scale tells")}
        <button type="submit">Record the row</button>
      </form>
      <p className={row && !row.ok ? "said wrong" : "said"} role="status">
        {said}
      </p>
      <TaskLine of={task} />
    </details>
  );
}

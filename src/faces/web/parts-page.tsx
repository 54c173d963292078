import { partCells, partHeads } from "../../job/rollups/parts";
import { leadColours } from "../../standards/marks/lead-colours";
import { markKinds, tellMark } from "../../standards/marks/tell-mark";
import { api } from "./api";
import { useKept } from "./kept";
import { LinesTable } from "./lines-table";
import { Issues, Panel, Select } from "./parts";
import { useLines } from "./use-lines";

/** The shopping list of the job, and what the marks of old parts say. */
export function PartsPage({ name, version }: { readonly name: string; readonly version: number }) {
  const { lines, leftOut, issues } = useLines(api.parts, name, version);
  return (
    <main className="two">
      <div>
        <h1>Parts to get</h1>
        <Issues of={issues} />
        <p role="status" className="quiet">
          {lines === undefined && issues.length === 0
            ? "Asking every question of this job…"
            : lines?.length === 0
              ? "Nothing yet: no answer calls for a part. Fill in the capacitor survey and the voltage chart on their cards."
              : "From this job's answers, like parts together. Where an old value is no longer made, the nearest preferred value is given."}
        </p>
        {leftOut.map((l) => (
          <p key={l.title}>{`Left out: ${l.title}, because ${l.why}`}</p>
        ))}
        {lines !== undefined && lines.length > 0 && (
          <>
            <div className="wide">
              <LinesTable
                className="figures parts"
                heads={partHeads}
                lines={lines}
                keyOf={(l) => [l.part, l.was, l.value, l.rating].join()}
                cells={partCells}
              />
            </div>
            <p className="noprint">
              <a href={api.partsCsvUrl(name)}>As CSV</a>{" "}
              <button type="button" className="plain" onClick={() => print()}>
                Print it
              </button>
            </p>
          </>
        )}
      </div>
      <aside>
        <Marks />
      </aside>
    </main>
  );
}

function Marks() {
  const [mark, setMark] = useKept("mark", { kind: "bands", said: "" });
  const told = mark.said.trim() === "" ? undefined : tellMark(mark.kind, mark.said);
  return (
    <Panel title="What an old mark says" id="marks">
      <Select
        label="Which code"
        value={mark.kind}
        onChange={(kind) => setMark({ ...mark, kind })}
        options={markKinds.map((k) => [k.id, k.says] as const)}
      />
      <label className="field">
        Colours in order, or the code
        <input
          value={mark.said}
          placeholder={mark.kind === "code" ? "4K7J" : "red green black"}
          onChange={(e) => setMark({ ...mark, said: e.currentTarget.value })}
          aria-describedby="mark-said"
          aria-invalid={told !== undefined && !told.ok}
        />
      </label>
      <p id="mark-said" role="status" className={told && !told.ok ? "said wrong" : "said"}>
        {told === undefined
          ? "Old parts drift: measure it anyway."
          : told.ok
            ? `${told.value.value}, ${told.value.tolerance}. ${told.value.also}`
            : `${told.issues[0].path}: read “${told.issues[0].read}”, expected ${told.issues[0].expected}`}
      </p>
      <h3>Leads of transformers</h3>
      <dl className="leads">
        {leadColours.map(([where, said]) => (
          <div key={where}>
            <dt>{where}</dt>
            <dd>{said}</dd>
          </div>
        ))}
      </dl>
      <p className="quiet">Makers differed: confirm by ohmmeter, set unplugged and discharged.</p>
    </Panel>
  );
}

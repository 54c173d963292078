import { useRef, useState } from "preact/compat";
import { dialRhythm } from "../../desk/dial-rhythm";
import { dialQuestions } from "../../desk/questions";
import { sittingAt } from "../../job/sitting";
import { benchOf, dialBeats, type JobView, setPointsOf } from "../../job/view";
import { parseQuantity } from "../../units/parse";
import { api, heldSays } from "./api";
import { LiveLaw, Region } from "./dial-law";
import { Papers } from "./dial-papers";
import { BeatRow } from "./dial-row";
import { useKept } from "./kept";
import { Panel, Select } from "./parts";
import { TaskLine, useTask } from "./task";

/** Zero beats in the rhythm of the bench: turn to the next marker, zero beat, type the scale reading, enter. The law follows each entry. */
export function DialPage({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const withSpread = view.set.bands.find((b) => b.spread) ?? view.set.bands[0];
  const [draft, setDraft] = useKept(`dial:${name}`, {
    band: withSpread?.id ?? "",
    // null until the person has said one: then it is the latest that is meant, and it stands in the field
    setPoint: null as string | null,
    approach: "up" as "up" | "down",
    // as it was said on sitting down
    thermal: sittingAt(view, new Date().toISOString())?.thermal ?? "warm",
    reading: "",
    frequency: "",
  });
  const band = view.set.bands.some((b) => b.id === draft.band) ? draft.band : (withSpread?.id ?? "");
  const known = setPointsOf(view, band);
  const typed = (draft.setPoint ?? known[0] ?? "").trim();
  const setPoint = known.find((p) => p.toLowerCase() === typed.toLowerCase()) ?? typed;
  const at = `bands.${band}:${setPoint}`;
  const bench = benchOf(view, at);
  const points = bench.points(at);
  const rhythm = dialRhythm(bench, draft.approach === "up" ? 1 : -1);
  const next = rhythm?.nextHz !== undefined ? `${Number((rhythm.nextHz / 1e3).toFixed(3))} kHz` : "";
  const frequency = draft.frequency || next;
  const allTaken = rhythm !== undefined && next === "" && draft.frequency === "";
  const hz = parseQuantity(frequency, "frequency", "frequency");
  const reading = parseQuantity(draft.reading, "division", "reading");
  const odd = rhythm && hz.ok && reading.ok && draft.reading !== "" ? rhythm.odd(reading.value.value, hz.value.value) : undefined;
  const expected = rhythm && hz.ok ? rhythm.expected(hz.value.value) : undefined;
  const field = useRef<HTMLInputElement>(null);
  const [asked, setAsked] = useState(false);
  const task = useTask();
  const record = () =>
    task.run("Recording it", async () => {
      const r = await api.zeroBeat(name, {
        band,
        setPoint,
        reading: draft.reading,
        frequency,
        approach: draft.approach,
        thermal: draft.thermal,
      });
      setDraft({ ...draft, reading: "", frequency: "" });
      setAsked(false);
      reload();
      field.current?.focus();
      return heldSays(r) ?? `${draft.reading} is ${frequency}.`;
    });
  const rows = dialBeats(view, at);
  const takeBack = (i: number) =>
    task.run("Taking it back", async () => {
      const r = await api.takeBackBeat(name, rows[i].readingId, rows[i].row);
      reload();
      return heldSays(r) ?? `${rows[i].reading} is taken back; it stays in the history.`;
    });
  const wrongReading = !reading.ok && (draft.reading !== "" || (asked && !allTaken));
  const nearby = expected
    ? `, expected near ${expected.reading.toFixed(1)}, give or take ${Math.max(0.05, expected.within).toFixed(1)}`
    : "";
  const said =
    odd ??
    (wrongReading && !reading.ok
      ? `Can't read “${draft.reading}” as a scale reading: expected ${reading.issues[0].expected}`
      : allTaken
        ? `Every marker on this band's scale is done turning ${draft.approach}.${rhythm.beyond.length > 0 ? ` By the law so far ${rhythm.beyond.join("; ")}.` : ""} Do them from the other side as well: that shows the backlash. Or type any other frequency.`
        : !hz.ok
          ? `Can't read “${frequency}” as a frequency: expected ${hz.issues[0].expected}`
          : `Next: ${frequency}${nearby}. Turn ${draft.approach} to it, zero beat, type the reading, enter.`);
  const put = (k: keyof typeof draft) => (v: string) => setDraft({ ...draft, [k]: v });
  return (
    <main className="two">
      <div>
        <h1>The dial</h1>
        <Panel title="Zero beats" id="beats">
          <div className="row">
            <Select label="Band" value={band} onChange={put("band")} options={view.set.bands.map((b) => [b.id, b.label] as const)} />
            <label className="field">
              Main dial set to
              <input
                list="set-points"
                value={draft.setPoint ?? known[0] ?? ""}
                placeholder="3.5 MHz dot, or empty"
                onChange={(e) => put("setPoint")(e.currentTarget.value)}
              />
              <datalist id="set-points">
                {known.map((p) => (
                  <option key={p} value={p} />
                ))}
              </datalist>
            </label>
            <Select
              label="Turning"
              value={draft.approach}
              onChange={put("approach")}
              options={[
                ["up", "up in frequency"],
                ["down", "down in frequency"],
              ]}
            />
            <Select
              label="The set is"
              value={draft.thermal}
              onChange={put("thermal")}
              options={["warm", "warming", "cold"].map((t) => [t, t] as const)}
            />
          </div>
          {known.length > 0 && (
            <p className="quiet">
              {`${known.includes(setPoint) ? "These beats are for" : "New on this band: no zero beat yet for"} ${setPoint ? `the main dial at “${setPoint}”` : "a main scale, no set-point"}.`}
              {known
                .filter((p) => p !== setPoint)
                .map((p) => (
                  <button key={p} type="button" className="plain small" onClick={() => put("setPoint")(p)}>
                    {`Go to ${p ? `“${p}”` : "the main scale"}`}
                  </button>
                ))}
            </p>
          )}
          <form
            className="beat"
            onSubmit={(e) => {
              e.preventDefault();
              setAsked(true);
              if (draft.reading !== "" && reading.ok && hz.ok) void record();
            }}
          >
            <label className="field">
              Marker or station
              <input
                value={draft.frequency}
                placeholder={next}
                onChange={(e) => put("frequency")(e.currentTarget.value)}
                aria-invalid={!allTaken && !hz.ok}
              />
            </label>
            <label className="field big">
              Scale reading
              <input
                ref={field}
                inputMode="decimal"
                value={draft.reading}
                placeholder={expected ? `about ${expected.reading.toFixed(1)}` : ""}
                onChange={(e) => put("reading")(e.currentTarget.value)}
                aria-invalid={wrongReading}
                aria-describedby="beat-said"
              />
            </label>
            <button type="submit">Record it</button>
          </form>
          <p id="beat-said" className={odd || wrongReading || (asked && !hz.ok) ? "said wrong" : "said"} role="status">
            {said}
          </p>
          <TaskLine of={task} />
          <BeatRow
            view={view}
            name={name}
            reload={reload}
            band={band}
            setPoint={setPoint}
            approach={draft.approach}
            thermal={draft.thermal}
          />
          {rows.length > 0 && (
            <table className="figures">
              <thead>
                <tr>
                  <th scope="col">Scale</th>
                  <th scope="col">Frequency</th>
                  <th scope="col">Turned</th>
                  <td />
                </tr>
              </thead>
              <tbody>
                {rows.map((r, i) => (
                  <tr key={`${r.readingId}-${r.row}`} className={rhythm?.oddOnes.includes(i) ? "odd" : ""}>
                    <td>{r.reading}</td>
                    <td>{Number((r.frequencyHz / 1e3).toFixed(6))} kHz</td>
                    <td>{r.approach > 0 ? "up" : r.approach < 0 ? "down" : "not said"}</td>
                    <td>
                      {rhythm?.oddOnes.includes(i) ? "odd, left out " : ""}
                      <button type="button" className="plain small" onClick={() => void takeBack(i)} aria-label={`Take back row ${i + 1}`}>
                        Take back
                      </button>
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          )}
          <p className="quiet">A table of zero beats (reading, kHz, approach) can be dropped under “Readings”, as “zero beats”.</p>
        </Panel>
        {points.length >= 2 ? (
          <LiveLaw view={view} at={at} takeBack={takeBack} />
        ) : (
          <p>{`${points.length} of at least 2 zero beats. The law appears with the second, wide at first.`}</p>
        )}
      </div>
      <aside>
        <Panel title="What it answers" id="dial-sheets">
          <ul className="questions">
            {dialQuestions.map((s) => (
              <li key={s.id}>
                <a href={`#/job/${encodeURIComponent(name)}/sheet/${s.id}`}>{s.question}</a>
              </li>
            ))}
          </ul>
        </Panel>
        {points.length >= 2 && <Region view={view} name={name} reload={reload} />}
        {points.length >= 2 && <Papers name={name} at={at} />}
      </aside>
    </main>
  );
}

import { useState } from "preact/compat";
import type { JobView } from "../../job/view";
import { stripLeaves } from "../../set/strip";
import { type Dimension, dimensionOf } from "../../units/dimensions";
import type { Issue } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { printQuantity } from "../../units/print";
import type { Quantity } from "../../units/quantity";
import { api, heldSays } from "./api";
import { Chassis } from "./chassis";
import { CorrectMember } from "./described/correct-member";
import { InWords } from "./described/in-words";
import { useKept } from "./kept";
import { Issues } from "./parts";
import { issuesOf } from "./task";

interface Described {
  readonly path: string;
  readonly label: string;
  readonly help: string;
  readonly dimension: Dimension;
  readonly quantity: Quantity;
}

/** Every quantity of the set that a person may state or measure, in groups, with help at each. */
function groups(view: JobView): readonly { readonly title: string; readonly rows: readonly Described[] }[] {
  const { set } = view;
  const row = (path: string, label: string, dimension: Dimension, quantity: Quantity, help: string): Described => ({
    path,
    label,
    dimension,
    quantity,
    help,
  });
  const strip = stripLeaves(set.strip).map((l) => row(l.path, l.meaning, l.dimension, l.quantity, l.howMeasured));
  const can = (n: number) => strip.filter((r) => r.path.startsWith(`strip.can${n}.`));
  return [
    {
      title: "Line and supplies",
      rows: [
        row("line.voltage", "Rated line voltage, on the plate", "voltage", set.line.voltage, "type plate"),
        row(
          "line.today",
          "Today's line voltage, at the outlet",
          "voltage",
          set.line.today ?? { ...set.line.voltage, origin: "assumed", source: "its rated voltage, not measured today" },
          "voltmeter at the outlet, by somebody trained for it",
        ),
        row("line.frequency", "Line frequency", "frequency", set.line.frequency, "type plate"),
        row("line.highRatio", "Highest line over nominal", "ratio", set.line.highRatio, "log the line for some days"),
        row(
          "supplies.secondaryVoltage",
          "Rms volts to the rectifier, one half",
          "voltage",
          set.supplies.secondaryVoltage,
          "AC meter, rectifier out, by somebody trained for it; or the service sheet",
        ),
        row(
          "supplies.plateFeedResistance",
          "Resistance from the supply to the plate",
          "resistance",
          set.supplies.plateFeedResistance,
          "ohmmeter, set off and discharged",
        ),
      ],
    },
    { title: "IF", rows: strip.filter((r) => !r.path.startsWith("strip.can")) },
    ...set.strip.cans.map((c, i) => ({ title: `IF can ${c.label}`, rows: can(i + 1) })),
    {
      title: "Adjusters and audio",
      rows: [
        row(
          "adjusters.slugRange",
          "How far a slug moves L",
          "fraction",
          set.adjusters.slugRange,
          "turns left to the stop, and how far the peak shifts per turn",
        ),
        row(
          "adjusters.trimmerRange",
          "How far a can's trimmer can be opened",
          "capacitance",
          set.adjusters.trimmerRange,
          "bridge at both ends",
        ),
        row("audio.low", "Audio, low end", "frequency", set.audio.low, "audio sweep"),
        row("audio.high", "Audio, high end", "frequency", set.audio.high, "audio sweep"),
      ],
    },
    ...set.fittings.map((f) => ({
      title: f.label,
      rows: Object.entries(f.values).flatMap(([k, q]) =>
        fittingDimensions[k]
          ? [row(`fittings.${f.id}.${k}`, fittingDimensions[k][1], fittingDimensions[k][0], q, "its data sheet, schematic, or measured")]
          : [],
      ),
    })),
  ];
}
const fittingDimensions: Readonly<Record<string, readonly [Dimension, string]>> = {
  cableLength: ["length", "Length of its cable"],
  cableCapacitancePerLength: ["capacitancePerLength", "Capacitance of its cable per length"],
  velocityFactor: ["ratio", "Velocity factor of its cable"],
  couplingCapacitance: ["capacitance", "Series capacitor at the plate"],
  coilQ: ["ratio", "Q of its cable coil"],
  tankCapacitance: ["capacitance", "Tank capacitor"],
  tankQ: ["ratio", "Q of its tank"],
  tuningRange: ["frequency", "Tuning to each side"],
  dividerRatio: ["ratio", "Feedback divider"],
  transconductance: ["conductance", "Transconductance of its tube"],
  amplificationFactor: ["ratio", "Amplification factor of its tube"],
  bleederResistance: ["resistance", "Bleeder from the cable side"],
};

/** The set described: what is stated, measured or fitted, what is still assumed, and the fact of the chassis. */
export function Describe({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const [draft, setDraft] = useKept<Record<string, string>>(`describe:${name}`, {});
  const [how, setHow] = useKept(`describe-how:${name}`, { origin: "stated", why: "" });
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [said, setSaid] = useState("");
  const all = groups(view);
  const bad = all
    .flatMap((g) => g.rows)
    .flatMap((r) => {
      const p = draft[r.path] ? parseQuantity(draft[r.path], r.dimension, r.path) : undefined;
      return p && !p.ok ? [[r.path, p.issues[0].expected] as const] : [];
    });
  const wrong = new Map(bad);
  const count = Object.values(draft).filter((v) => v !== "").length;
  const keep = async () => {
    try {
      const r = await api.values(
        name,
        Object.entries(draft)
          .filter(([, v]) => v !== "")
          .map(([path, text]) => ({ path, text })),
        how.origin,
        how.why,
      );
      setDraft({});
      setIssues([]);
      setSaid(heldSays(r) ?? "Kept. Earlier values stay in the history.");
      reload();
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  return (
    <main className="describe">
      <h1>Describe the set</h1>
      <p>
        Type what you know, the way the trade writes it: 455 kc, 22 µµF, 0.05 mfd, 4k7, 3 ft, 110 pF ±5%. What you leave alone stays as it
        is.
      </p>
      <Chassis view={view} name={name} reload={reload} />
      <CorrectMember view={view} name={name} reload={reload} />
      <InWords
        name={name}
        title="A chart, typed or copied"
        says="Rows of the service sheet's chart, a point a line: socket, pin or electrode, volts."
        example={"V1 pin 5 225 V\nV1 screen 100 V"}
        button="Put these on the chart"
        done={reload}
      />
      {all.map((g) => (
        <details key={g.title} className="panel">
          <summary>
            {g.title} ({g.rows.filter((r) => r.quantity.origin === "assumed").length} of {g.rows.length} assumed)
          </summary>
          {g.rows.map((r) => {
            const id = `d-${r.path.replace(/\W/g, "-")}`;
            return (
              <div key={r.path} className={`input ${r.quantity.origin}`}>
                <label htmlFor={id}>
                  <span className="name">{r.label}</span>
                </label>
                <span className="value">{printQuantity(r.quantity.value, r.quantity.spread, r.dimension)}</span>
                <span className={`origin ${r.quantity.origin}`}>{r.quantity.origin}</span>
                <input
                  id={id}
                  value={draft[r.path] ?? ""}
                  placeholder={dimensionOf(r.dimension).examples.split(", ")[0]}
                  onChange={(e) => setDraft({ ...draft, [r.path]: e.currentTarget.value })}
                  aria-invalid={wrong.has(r.path)}
                  aria-describedby={`${id}-said`}
                />
                <span />
                <span id={`${id}-said`} className={wrong.has(r.path) ? "said wrong" : "said"}>
                  {wrong.has(r.path) ? `Expected ${wrong.get(r.path)}` : `${r.help}. ${r.quantity.source}.`}
                </span>
              </div>
            );
          })}
        </details>
      ))}
      <form
        className="panel"
        onSubmit={(e) => {
          e.preventDefault();
          void keep();
        }}
      >
        <div className="row">
          <label className="field">
            These are
            <select value={how.origin} onChange={(e) => setHow({ ...how, origin: e.currentTarget.value })}>
              <option value="stated">stated by a sheet or plate</option>
              <option value="measured">measured</option>
              <option value="assumed">assumed</option>
            </select>
          </label>
          <label className="field wide">
            Source, in your words
            <input value={how.why} onChange={(e) => setHow({ ...how, why: e.currentTarget.value })} />
          </label>
        </div>
        <button type="submit" disabled={wrong.size > 0 || count === 0}>
          Keep {count} {count === 1 ? "value" : "values"}
        </button>
        <p role="status">{said}</p>
        <Issues of={issues} />
      </form>
    </main>
  );
}

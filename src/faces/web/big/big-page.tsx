import { cardCautions } from "../../../job/card-care";
import { type Form, forms } from "../../../job/forms";
import { nextSteps } from "../../../job/next";
import { readPoints, withUnit } from "../../../job/rollups/read-points";
import type { JobView } from "../../../job/view";
import { stateWord } from "../../../standards/cautions";
import { upperFirst } from "../../../units/sentence";
import { goTo, jobLink } from "../links";
import { Issues, Select } from "../parts";
import { Helpers } from "./helpers";
import { Keypad } from "./keypad";
import { type AtPoint, useAtPoint } from "./use-point";

const verdictShape = { sound: "✓", wrong: "△", open: "○" } as const;
/** What stands at this point, and what is typed instead, judged by the chart. */
const Says = ({ of: p }: { readonly of: AtPoint }) => {
  if (p.refused !== undefined && p.text !== "") return <p className="saidbig wrong">Expected {p.refused}</p>;
  if (p.said)
    return (
      <p className={`saidbig ${p.said.verdict}`}>
        <span aria-hidden="true">{verdictShape[p.said.verdict]}</span> {p.said.says}
      </p>
    );
  const due = p.point?.due ? `should read ${p.point.due}` : "";
  const stands = p.point?.stands
    ? `${p.point.again ? "to be read again, was" : "on record:"} ${withUnit(p.point.stands, p.point.unit)}`
    : "";
  return <p className="saidbig">{[due, stands].filter((t) => t !== "").join("; ") || "not read yet"}</p>;
};

/** What is to be heeded while the probe is in: the first caution always in sight, the others behind it. */
function Heed({ view, form }: { readonly view: JobView; readonly form: Form }) {
  const cautions = cardCautions(view, form);
  return (
    <div className={`heed ${form.state}`}>
      <strong>{upperFirst(stateWord[form.state])}.</strong> {cautions[0]?.says ?? "B+ kills. Measure before you touch."}
      {cautions.length > 1 && (
        <details>
          <summary>{cautions.length - 1} more to heed</summary>
          <ul>
            {cautions.slice(1).map((c) => (
              <li key={c.id}>{c.says}</li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

/** The card that is measured now: the one asked for, else that of the first step that wants one with readings. */
function formOf(view: JobView, card: string): { readonly form: Form | undefined; readonly all: readonly Form[] } {
  const all = forms.filter((f) => readPoints(view, f).length > 0);
  const wanted = [card, ...nextSteps(view).flatMap((i) => i.cards)];
  return { form: wanted.flatMap((id) => all.filter((f) => f.id === id))[0] ?? all[0], all };
}

/** One figure, one field, one button: readings typed at the set with a thumb, each judged as it is typed. */
export function BigPage(props: { readonly view: JobView; readonly name: string; readonly reload: () => void; readonly card: string }) {
  const { form, all } = formOf(props.view, props.card);
  if (!form)
    return (
      <main>
        <h1>Nothing to read yet</h1>
        <p>No card of this set has a point to read. Describe its tubes first.</p>
      </main>
    );
  return (
    <main className="bigpage">
      <Select
        label="Card"
        value={form.id}
        onChange={(id) => goTo(jobLink(props.name, "big", id))}
        options={all.map((f) => [f.id, f.title] as const)}
      />
      <Heed view={props.view} form={form} />
      <Point key={form.id} {...props} form={form} />
    </main>
  );
}

/** The one button, and the ways past a point that can't be read now. */
const Act = ({ p }: { readonly p: AtPoint }) => (
  <div className="bigact">
    <button type="button" className="plain" aria-label="The point before" disabled={p.at === 0} onClick={() => p.go(p.at - 1)}>
      ‹
    </button>
    <button type="submit" className="keep" disabled={p.text === "" || p.refused !== undefined}>
      {p.text === "" ? "Type what you read" : "Keep, go on"}
    </button>
    <button
      type="button"
      className="plain"
      aria-label="The next point"
      disabled={p.at === p.points.length - 1}
      onClick={() => p.go(p.at + 1)}
    >
      ›
    </button>
  </div>
);
function Point({
  view,
  name,
  reload,
  form,
}: {
  readonly view: JobView;
  readonly name: string;
  readonly reload: () => void;
  readonly form: Form;
}) {
  const p = useAtPoint(view, form, name, reload);
  const { point } = p;
  if (!point) return <p>Nothing of this card is read at the set.</p>;
  const put = (key: string) => p.type(key === "−" ? (p.text.startsWith("−") ? p.text.slice(1) : `−${p.text}`) : p.text + key);
  return (
    <form
      className="point"
      onSubmit={(e) => {
        e.preventDefault();
        if (p.text !== "" && p.refused === undefined) void p.keep();
      }}
    >
      <h1>
        {point.at}
        <small>{[point.heading, point.stage, `${p.at + 1} of ${p.points.length}`].filter((t) => t !== "").join(" · ")}</small>
      </h1>
      <label className="bigfield">
        <span className="vh">{`${point.at}: ${point.heading}`}</span>
        <input
          value={p.text}
          inputMode="none"
          autoComplete="off"
          placeholder={point.stands === "" ? "…" : point.stands}
          aria-invalid={p.refused !== undefined && p.text !== ""}
          onChange={(e) => p.type(e.currentTarget.value)}
        />
        <span className="unit">{/[a-zΩ%]/i.test(p.text || point.stands) ? "" : point.unit}</span>
      </label>
      <Says of={p} />
      <Issues of={p.issues} />
      <Keypad unit={point.unit} put={put} back={() => p.type(p.text.slice(0, -1))} />
      <Act p={p} />
      {p.nextAgain !== undefined && !point.again && (
        <p>
          <button type="button" className="plain" onClick={() => p.go(p.nextAgain ?? 0)}>
            {`Go to what is to be read again: ${p.points[p.nextAgain].at}`}
          </button>
        </p>
      )}
      <Helpers p={p} />
    </form>
  );
}

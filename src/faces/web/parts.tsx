import type { ReactNode } from "preact/compat";
import type { HeededFinding } from "../../ask/findings";
import { refusalLines } from "../../job/refusal";
import type { StepState } from "../../job/view";
import { type Caution, type State as HandsState, isOpen, stateWord } from "../../standards/cautions";
import type { Issue } from "../../units/issue";

/** A state by word and by shape, never by colour alone. */
const shapes: Readonly<Record<StepState, string>> = {
  untouched: "M8 2a6 6 0 1 0 0 12A6 6 0 0 0 8 2z",
  found: "M8 2a6 6 0 1 0 0 12A6 6 0 0 0 8 2zM8 2v12",
  "in work": "M3 3h10v10H3z",
  "due again": "M8 2l6.5 11.5h-13z",
  proven: "M2.5 8.5l4 4 7-9",
};
export const State = ({ state }: { readonly state: StepState }) => (
  <span className={`state ${state.replace(" ", "-")}`}>
    <svg viewBox="0 0 16 16" width="18" height="18" aria-hidden="true">
      <path
        d={shapes[state]}
        fill={state === "due again" ? "currentColor" : "none"}
        stroke="currentColor"
        strokeWidth="2"
        strokeLinejoin="round"
        strokeLinecap="round"
      />
    </svg>
    {state}
  </span>
);

/** What is to be heeded before a step. */
export const Cautions = ({ of }: { readonly of: readonly Caution[] }) =>
  of.length === 0 ? null : (
    <ul className="cautions">
      {of.map((c) => (
        <li key={c.id}>{c.says}</li>
      ))}
    </ul>
  );

/** What a step wants of the set: shown where the set is open. */
export const Wants = ({ state }: { readonly state: HandsState }) =>
  isOpen(state) ? <span className={`wants ${state}`}>{stateWord[state]}</span> : null;

const word = { danger: "Danger", act: "Do", check: "Check", note: "Note" } as const;

/** A finding; before its step what is to be heeded, where the state turns open. */
export const FindingBox = ({ of: f }: { readonly of: HeededFinding }) => (
  <div className={`finding ${f.severity}`}>
    <p>
      <strong>{word[f.severity]}</strong> {f.says}
    </p>
    <Cautions of={f.before} />
    {f.do && (
      <p className="do">
        <Wants state={f.state} /> {f.do}
      </p>
    )}
  </div>
);

export const Issues = ({ of }: { readonly of: readonly Issue[] }) =>
  of.length === 0 ? null : (
    <div className="issues" role="alert">
      {refusalLines(of).map((l) => (
        <p key={l.says}>{l.says}</p>
      ))}
    </div>
  );

/** Something wide that scrolls by itself, by keyboard too. */
export const Scroll = ({ label, children }: { readonly label: string; readonly children: ReactNode }) => (
  // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
  <section className="scroll" tabIndex={0} aria-label={label}>
    {children}
  </section>
);

/** A labelled list to choose from. */
export const Select = ({
  label,
  value,
  options,
  onChange,
}: {
  readonly label: string;
  readonly value: string;
  readonly options: readonly (readonly [id: string, says: string])[];
  readonly onChange: (value: string) => void;
}) => (
  <label className="field">
    {label}
    <select value={value} onChange={(e) => onChange(e.currentTarget.value)}>
      {options.map(([id, says]) => (
        <option key={id} value={id}>
          {says}
        </option>
      ))}
    </select>
  </label>
);

export const Panel = ({ title, children, id }: { readonly title: string; readonly children: ReactNode; readonly id?: string }) => (
  <section className="panel" {...(id ? { id, "aria-labelledby": `${id}-title` } : {})}>
    <h2 {...(id ? { id: `${id}-title` } : {})}>{title}</h2>
    {children}
  </section>
);

/** Whether a reading was taken as the set was found, or as it was left. */
export const Taken = ({ value, onChange }: { readonly value: string; readonly onChange: (state: string) => void }) => (
  <Select
    label="Taken"
    value={value}
    onChange={onChange}
    options={[
      ["as-found", "as found"],
      ["as-left", "as left"],
    ]}
  />
);

import { leastForInterval, mostDraws } from "../../../ask/answer";
import type { Answer } from "../../../ask/answered";
import type { WhatIf } from "./use-what-if";

/** A whole number within bounds; what is none yet changes nothing. */
function Whole({
  label,
  value,
  least,
  most,
  onChange,
}: {
  readonly label: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly onChange: (n: number) => void;
}) {
  return (
    <label className="field">
      {label}, {least} to {most.toLocaleString("en")}
      <input
        type="number"
        min={least}
        max={most}
        defaultValue={value}
        onChange={(e) => {
          const n = e.currentTarget.valueAsNumber;
          if (Number.isInteger(n) && n >= least && n <= most) onChange(n);
        }}
      />
    </label>
  );
}

/** What the answer was drawn with, and another drawing of it. */
export const Again = ({ answer, of }: { readonly answer: Answer; readonly of: WhatIf }) => (
  <div className="noprint">
    <p className="quiet">
      {answer.sheet} version {answer.version}, seed {answer.seed}, {answer.draws} draws
      {of.working ? "; working out the full answer…" : ""}. Intervals are 95 %, probabilistically symmetric.
    </p>
    <details>
      <summary>Draw again with another seed</summary>
      <p>The same seed and number of draws give the same answer. Another seed shows how much is chance.</p>
      <div className="row">
        <Whole
          label="Seed"
          value={of.sampling.seed}
          least={1}
          most={1_000_000}
          onChange={(seed) => of.setSampling({ ...of.sampling, seed })}
        />
        <Whole
          label="Draws"
          value={of.sampling.draws}
          least={leastForInterval}
          most={mostDraws}
          onChange={(draws) => of.setSampling({ ...of.sampling, draws })}
        />
      </div>
    </details>
  </div>
);

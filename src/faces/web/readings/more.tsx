import { steps } from "../../../job/steps";
import type { JobView } from "../../../job/view";
import { Select } from "../parts";
import { type How, kinds } from "./use-file";

interface Said {
  readonly view: JobView;
  readonly how: How;
  readonly change: (key: keyof How) => (value: string) => void;
}
/** What it is after all, and what took it of which place. */
const Whence = ({ view, how, change }: Said) => (
  <>
    <Select label="What it is" value={how.as} onChange={change("as")} options={Object.entries(kinds)} />
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
      label="The set is"
      value={how.thermal}
      onChange={change("thermal")}
      options={[["", "as you said on sitting down"], ...["warm", "warming", "cold"].map((t) => [t, t] as const)]}
    />
  </>
);

/** What is seldom said of a reading, folded. */
export const More = ({ view, how, change }: Said) => (
  <details>
    <summary>More about the reading</summary>
    <div className="row">
      <Whence view={view} how={how} change={change} />
      <label className="field">
        Line voltage when it was taken
        <input value={how.lineVoltage} placeholder="121 V" onChange={(e) => change("lineVoltage")(e.currentTarget.value)} />
      </label>
      <label className="field">
        Unit of the frequencies, where the file has no heading
        <input value={how.unit} placeholder="kHz" onChange={(e) => change("unit")(e.currentTarget.value)} />
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
);

import type { SweepTyped } from "../../../desk/stepped-plan";
import type { JobView } from "../../../job/view";
import { printValue } from "../../../units/print";
import { Select } from "../parts";

/** What a person says of a sweep, as it is typed. */
export type Typed = Readonly<Record<Exclude<keyof SweepTyped, "points" | "readings" | "reads" | "holds" | "avc">, string>> & {
  readonly points: string;
  readonly readings: string;
  readonly reads: SweepTyped["reads"];
  readonly holds: SweepTyped["holds"];
  readonly avc: SweepTyped["avc"];
  readonly baud: string;
};
const around = (view: JobView, offHz: number): string => {
  const hz = view.set.strip?.intermediateFrequency.value;
  return hz === undefined ? "" : printValue(hz + offHz, "frequency", 100);
};
/** What stands there before anything is typed: around this set's IF. */
export const usual = (view: JobView): Typed => ({
  from: around(view, -12e3),
  to: around(view, 12e3),
  points: "41",
  level: "-60 dBm",
  most: "-20 dBm",
  settle: "0.5 s",
  readings: "5",
  narrowest: "2 kHz",
  reads: "ac",
  modulation: "30",
  tone: "400 Hz",
  within: "0.2 dB",
  holds: "level",
  avc: "clamped",
  baud: "9600",
});

interface Said {
  readonly typed: Typed;
  readonly say: (key: keyof Typed) => (value: string) => void;
}
const Field = ({ typed, say, at, label }: Said & { readonly at: keyof Typed; readonly label: string }) => (
  <label className="field">
    {label}
    <input value={typed[at]} onChange={(e) => say(at)(e.currentTarget.value)} />
  </label>
);
/** What is seldom said of a sweep, folded. */
const Seldom = (said: Said) => (
  <details>
    <summary>Settling, readings, modulation</summary>
    <div className="row">
      <Field {...said} at="settle" label="Settle after each step" />
      <Field {...said} at="readings" label="Readings at each step" />
      <Field {...said} at="narrowest" label="Narrowest width the set may show" />
      <Select
        label="The meter reads"
        value={said.typed.reads}
        onChange={said.say("reads")}
        options={[
          ["ac", "AC volts of the sound"],
          ["dc", "DC volts of the detector"],
        ]}
      />
      <Field {...said} at="modulation" label="Modulation, % (0 for none)" />
      <Field {...said} at="tone" label="Frequency of the modulation" />
      <Field {...said} at="within" label="Generator and meter, from point to point" />
      <Field {...said} at="baud" label="Bits a second of both ports" />
    </div>
  </details>
);
/** What is asked of a sweep: the few things that matter first. */
export function Asked(said: Said) {
  return (
    <>
      <div className="row">
        <Field {...said} at="from" label="From" />
        <Field {...said} at="to" label="To" />
        <Field {...said} at="points" label="Frequencies" />
        <Field {...said} at="level" label="Generator's level" />
        <Field {...said} at="most" label="Never above" />
        <Select
          label="Held"
          value={said.typed.holds}
          onChange={said.say("holds")}
          options={[
            ["level", "the level: the meter is read"],
            ["output", "the output: the generator is raised"],
          ]}
        />
        <Select
          label="The set's AVC"
          value={said.typed.avc}
          onChange={said.say("avc")}
          options={[
            ["clamped", "clamped"],
            ["off", "off"],
            ["on", "on"],
          ]}
        />
      </div>
      <Seldom {...said} />
    </>
  );
}

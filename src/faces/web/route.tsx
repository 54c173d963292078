import type { JobView, StepState } from "../../job/view";
import { sheets } from "../../sheets/index";

type Stage = JobView["set"]["stages"][number];
const rank: readonly StepState[] = ["untouched", "proven", "found", "in work", "due again"];

/** A stage's state is that of its most pressing step. */
export function stateOfStage(view: JobView, stage: Stage): StepState {
  const states = view.steps.filter((s) => stage.steps.includes(s.id)).map((s) => s.state);
  return states.reduce<StepState>((worst, s) => (rank.indexOf(s) > rank.indexOf(worst) ? s : worst), "untouched");
}

export const readingsOfStage = (view: JobView, stage: Stage) =>
  view.readings.filter(
    (r) => r.stage === stage.id || (r.stage === "" && (stage.steps.includes(r.step) || (stage.kind === "can" && r.as === "if-sweep"))),
  );

/** The stage's figure as found and as left: what its latest reading of each kind says first. A sweep of the whole strip stands once, at its first can. */
function figures(view: JobView, stage: Stage) {
  const first = view.set.stages.find((s) => s.kind === "can");
  const own = readingsOfStage(view, stage).filter((r) => r.stage === stage.id || r.as !== "if-sweep" || stage === first);
  const of = (state: string) => {
    const r = [...own].reverse().find((x) => x.state === state);
    const f = r?.figures.find((x) => x.name === "width at -6 dB") ?? r?.figures[0];
    const whole = r?.as === "if-sweep" && r.stage === "" ? "whole strip, " : "";
    return f ? `${whole}${f.name} ${f.text.replace(/ \(.*/, "")}` : undefined;
  };
  return { found: of("as-found"), left: of("as-left") };
}

/** Questions that concern a stage: by its steps, and those about a stage of its kind. */
export const sheetsOfStage = (stage: Stage) =>
  sheets.filter((s) => (s.stageKinds ? s.stageKinds.includes(stage.kind) : s.steps.some((x) => stage.steps.includes(x))));

/** A ruled line that a hand drew: nearly straight, and the same each time for the same place. */
function ruled(seed: number): string {
  const wave = (i: number) => 6 + 1.6 * Math.sin(seed * 2.3 + i * 1.7) + 0.9 * Math.sin(seed * 5.1 + i * 4.3);
  const points = Array.from({ length: 9 }, (_, i) => `${(i * 100) / 8} ${(i === 0 || i === 8 ? 6 : wave(i)).toFixed(2)}`);
  return `M${points.join(" L")}`;
}

/**
 * The set's signal path as a ruled route with tags tied to it, antenna to loudspeaker; supplies beside it, accessories hung where they are
 * tapped in.
 */
export function Route({
  view,
  chosen,
  choose,
  StateMark,
}: {
  readonly view: JobView;
  readonly chosen: string;
  readonly choose: (id: string) => void;
  readonly StateMark: (p: { state: StepState }) => React.ReactNode;
}) {
  const { set } = view;
  const path = set.stages.filter((s) => s.kind !== "supply" && s.kind !== "oscillator" && s.kind !== "bfo");
  const beside = set.stages.filter((s) => !path.includes(s));
  const hung = (stage: Stage) =>
    set.fittings.filter((f) => f.state !== "offered" && set.taps.find((t) => t.id === f.tap)?.stage === stage.id);
  const tag = (s: Stage) => {
    const { found, left } = figures(view, s);
    return (
      <button type="button" className="tag" aria-pressed={chosen === s.id} onClick={() => choose(s.id)}>
        <span className="hole" aria-hidden="true" />
        <strong>{s.label}</strong>
        <span className="part">{s.part}</span>
        {found && <span className="figure">found: {found}</span>}
        {left && <span className="figure">left: {left}</span>}
        <StateMark state={stateOfStage(view, s)} />
      </button>
    );
  };
  return (
    <div className="routewrap">
      <ol className="route" aria-label="Signal path, antenna to loudspeaker">
        {path.map((s, i) => (
          <li key={s.id}>
            <svg className="ruled" viewBox="0 0 100 12" preserveAspectRatio="none" aria-hidden="true">
              <path d={ruled(i + 1)} />
            </svg>
            <span className="string" aria-hidden="true" />
            {tag(s)}
            {hung(s).map((f) => (
              <div key={f.id} className="hung">
                <span className="string" aria-hidden="true" />
                <span className="slip">
                  <strong>{f.label}</strong> at the {set.taps.find((t) => t.id === f.tap)?.label}: {f.state}
                </span>
              </div>
            ))}
          </li>
        ))}
      </ol>
      <ul className="beside" aria-label="Beside the signal path">
        {beside.map((s) => (
          <li key={s.id}>{tag(s)}</li>
        ))}
      </ul>
    </div>
  );
}

import type { ReactNode } from "preact/compat";
import { setFigures } from "../../../ask/care";
import { audioKept } from "../../../desk/response-entries";
import { responseTake, type TakeKind, type TakeSlot, takeSlots } from "../../../desk/takes";
import { benchOf } from "../../../job/view";
import { clock as clockTime } from "../../../readings/sound/health";
import { closed, upperFirst } from "../../../units/sentence";
import { Cautions } from "../parts";
import { TaskLine } from "../task";
import type { ToJob } from "./keep-heard";
import { KeepTakes } from "./keep-takes";
import { LoopLine, useLoop } from "./sound-device";
import { StripTold } from "./strip-told";
import { askedOf, StripFields, useStrip } from "./strip-view";
import { TakesTold } from "./takes-told";
import type { Input } from "./use-input";
import { type Taking, useTakes } from "./use-takes";

interface SlotSaid {
  readonly of: TakeSlot;
  readonly taking: Taking;
  readonly on: boolean;
  /** what is said of it beside its sound */
  readonly children?: ReactNode;
}
/** One of the recordings: taken live as long as you like, or from a file. */
function Slot({ of: s, taking, on, children }: SlotSaid) {
  const { takes, live } = taking;
  const take = takes[s.id];
  const running = live === s.id;
  return (
    <fieldset className="take">
      <legend>{s.says}</legend>
      <p className="quiet">{s.how}</p>
      <Cautions of={s.cautions} />
      {children}
      {take && (
        <p role={running ? undefined : "status"}>
          {running ? "Listening" : take.heard.name}, {clockTime(take.heard.health.secondsCount)}.
        </p>
      )}
      {take?.heard.warnings.map((w) => (
        <p key={w} className="warn">
          {closed(upperFirst(w))}
        </p>
      ))}
      <div className="row">
        {running ? (
          <button type="button" onClick={() => void taking.end()}>
            That will do
          </button>
        ) : (
          <button type="button" disabled={!on || live !== undefined} onClick={() => taking.begin(s.id)}>
            {on ? "Take it now" : "Listen first, then take it"}
          </button>
        )}
        <label className="field">
          From a recording
          <input
            type="file"
            accept=".wav,.flac,audio/wav,audio/flac"
            disabled={running}
            // the same file once more is a choice as well
            onClick={(e) => {
              e.currentTarget.value = "";
            }}
            onChange={(e) => {
              const [file] = e.currentTarget.files ?? [];
              if (file) taking.file(s.id, file);
            }}
          />
        </label>
        {take && !running && (
          <button type="button" className="plain" onClick={() => taking.forget(s.id)}>
            Leave it out
          </button>
        )}
      </div>
    </fieldset>
  );
}

/** Hum, noise, crackle or a response by a few recordings that belong together, live or from files. */
export function TakesView({
  kind,
  input,
  clock,
  label,
  to,
}: {
  readonly kind: TakeKind;
  readonly input: Input;
  readonly clock: string;
  /** of the input, by which its own response is kept */
  readonly label: string;
  readonly to?: ToJob | undefined;
}) {
  const loop = useLoop(label);
  const strip = useStrip({ loop: loop.points, audio: to && audioKept(to.view) });
  const taking = useTakes(kind, input, clock, (slot) => askedOf(kind, slot, strip.known));
  const measured = kind === "response" ? responseTake(taking.takes, "loop-back")?.points : undefined;
  const rectifier = to?.view.set.supplies.rectifier;
  const how = {
    halfWave: rectifier === undefined ? undefined : /half/.test(rectifier),
    figures: to ? setFigures(benchOf(to.view, "")) : {},
  };
  return (
    <section className="takes" aria-label="Recordings">
      <TakesTold kind={kind} takes={taking.takes} how={how} loop={loop.points} />
      {kind === "response" && <StripTold takes={taking.takes} strip={strip} to={to} />}
      {kind !== "crackle" && <LoopLine loop={loop} measured={measured} />}
      {takeSlots[kind].map((s) => (
        <Slot key={s.id} of={s} taking={taking} on={input.state === "on"}>
          {kind === "response" && <StripFields slot={s.id} of={strip} />}
        </Slot>
      ))}
      {input.state !== "on" && <p className="quiet">Press Listen to take them from the input.</p>}
      <TaskLine of={taking.task} />
      {to && <KeepTakes kind={kind} taking={taking} clock={clock} loop={loop.points} to={to} />}
    </section>
  );
}

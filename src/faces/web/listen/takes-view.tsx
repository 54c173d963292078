import { setFigures } from "../../../ask/care";
import { type TakeKind, type TakeSlot, takeSlots } from "../../../desk/takes";
import { benchOf } from "../../../job/view";
import { clock as clockTime } from "../../../readings/sound/health";
import { closed, upperFirst } from "../../../units/sentence";
import { Cautions } from "../parts";
import { TaskLine } from "../task";
import type { ToJob } from "./keep-heard";
import { KeepTakes } from "./keep-takes";
import { TakesTold } from "./takes-told";
import type { Input } from "./use-input";
import { type Taking, useTakes } from "./use-takes";

/** One of the recordings: taken live as long as you like, or from a file. */
function Slot({ of: s, taking, on }: { readonly of: TakeSlot; readonly taking: Taking; readonly on: boolean }) {
  const { takes, live } = taking;
  const take = takes[s.id];
  const running = live === s.id;
  return (
    <fieldset className="take">
      <legend>{s.says}</legend>
      <p className="quiet">{s.how}</p>
      <Cautions of={s.cautions} />
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
            Take it now
          </button>
        )}
        <label className="field">
          From a recording
          <input
            type="file"
            accept=".wav,.flac,audio/wav,audio/flac"
            disabled={running}
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
  to,
}: {
  readonly kind: TakeKind;
  readonly input: Input;
  readonly clock: string;
  readonly to?: ToJob | undefined;
}) {
  const taking = useTakes(kind, input, clock);
  const rectifier = to?.view.set.supplies.rectifier;
  const how = {
    halfWave: rectifier === undefined ? undefined : /half/.test(rectifier),
    figures: to ? setFigures(benchOf(to.view, "")) : {},
  };
  return (
    <section className="takes" aria-label="Recordings">
      <TakesTold kind={kind} takes={taking.takes} how={how} />
      {takeSlots[kind].map((s) => (
        <Slot key={s.id} of={s} taking={taking} on={input.state === "on"} />
      ))}
      {input.state !== "on" && <p className="quiet">Press Listen to take them from the input.</p>}
      <TaskLine of={taking.task} />
      {to && <KeepTakes kind={kind} taking={taking} clock={clock} to={to} />}
    </section>
  );
}

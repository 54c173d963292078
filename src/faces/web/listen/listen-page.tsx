import { clockOf } from "../../../desk/heard";
import { audioLead } from "../../../standards/audio-lead";
import { useAwake } from "../big/use-awake";
import { useKept } from "../kept";
import { jobLink } from "../links";
import { here } from "../opened";
import { Cautions } from "../parts";
import { InputChoice, InputLevel } from "./input-line";
import { KeepHeard, type ToJob } from "./keep-heard";
import { NoteView } from "./note-view";
import { PeakView } from "./peak-view";
import { type Input, useInput, useNews } from "./use-input";

/** What is to be heeded where the input is chosen: all of it before the input is open, the first of it always. */
function Heed({ listening }: { readonly listening: boolean }) {
  if (!listening)
    return (
      <section className="leadcare">
        <h2>Before you lead the set's sound in</h2>
        <Cautions of={audioLead} />
      </section>
    );
  return (
    <div className="heed">
      {audioLead[0].says}
      <details>
        <summary>{audioLead.length - 1} more to heed</summary>
        <Cautions of={audioLead.slice(1)} />
      </details>
    </div>
  );
}
const Level = ({ input }: { readonly input: Input }) => {
  const news = useNews(input);
  return news ? <InputLevel of={news.input} side={news.side} /> : null;
};

/** Listens to the set live: a level for the hand on the screwdriver, or a tone over minutes. Needs neither a set nor a job. */
export function ListenPage({ what, to }: { readonly what: string; readonly to?: ToJob | undefined }) {
  const input = useInput();
  const [device, choose] = useKept("listen:device", "");
  const [clock, keepClock] = useKept(`listen:clock:${input.open?.label ?? ""}`, "");
  const on = input.state === "on";
  useAwake(on);
  const note = what === "note";
  const link = (page: string): string => (to ? jobLink(to.name, "listen", page) : `#/listen/${page}`);
  return (
    <main className="listen">
      <h1>{note ? "Note: a tone over minutes" : "Peak: the level by ear and eye"}</h1>
      <nav className="kinds noprint" aria-label="What to listen for">
        <a href={link("peak")} aria-current={note ? undefined : "page"}>
          Peak a level
        </a>
        <a href={link("note")} aria-current={note ? "page" : undefined}>
          Follow a note
        </a>
      </nav>
      {input.trouble !== "" && (
        <p className="warn" role="alert">
          {input.trouble}
        </p>
      )}
      {!on && <Heed listening={false} />}
      {on &&
        (note ? (
          <NoteView input={input} clock={clock} keepClock={keepClock} />
        ) : (
          <PeakView input={input} clock={clockOf(clock || undefined).value} />
        ))}
      {on && <Level input={input} />}
      <InputChoice input={input} device={device} choose={choose} />
      {on && <Heed listening={true} />}
      {on && <KeepHeard input={input} what={note ? "note" : "peak"} clock={clock} to={here ? to : undefined} />}
    </main>
  );
}

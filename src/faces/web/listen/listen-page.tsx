import { clockOf } from "../../../desk/heard";
import { type TakeKind, takeKinds } from "../../../desk/takes";
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
import { TakesView } from "./takes-view";
import { useInput, useNews } from "./use-input";

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
/** What can be listened for, each with its way there and its heading. */
const whats = [
  ["peak", "Peak a level", "Peak: the level by ear and eye"],
  ["note", "Follow a note", "Note: a tone over minutes"],
  ["hum", "Hum", "Hum: the mains and its multiples"],
  ["noise", "Noise", "Noise: signal to noise, and whether the set hears the band"],
  ["crackle", "Crackle", "Crackle: bursts and jumps of the level"],
  ["response", "Response", "Response: what audio and IF pass"],
] as const;
const isTake = (what: string): what is TakeKind => takeKinds.some((k) => k === what);

/** Listens to the set live: a level for the hand on the screwdriver, a tone over minutes, or a few recordings compared. Needs neither a set nor a job. */
export function ListenPage({ what: asked, to }: { readonly what: string; readonly to?: ToJob | undefined }) {
  const input = useInput();
  const news = useNews(input);
  const [device, choose] = useKept("listen:device", "");
  const [clock, keepClock] = useKept(`listen:clock:${input.open?.label ?? ""}`, "");
  const on = input.state === "on";
  useAwake(on);
  const [what, , heading] = whats.find(([id]) => id === asked) ?? whats[0];
  const link = (page: string): string => (to ? jobLink(to.name, "listen", page) : `#/listen/${page}`);
  const job = here ? to : undefined;
  return (
    <main className="listen">
      <h1>{heading}</h1>
      <nav className="kinds noprint" aria-label="What to listen for">
        {whats.map(([id, says]) => (
          <a key={id} href={link(id)} aria-current={id === what ? "page" : undefined}>
            {says}
          </a>
        ))}
      </nav>
      {input.trouble !== "" && (
        <p className="warn" role="alert">
          {input.trouble}
        </p>
      )}
      {!on && <Heed listening={false} />}
      {on && what === "note" && <NoteView input={input} clock={clock} keepClock={keepClock} />}
      {on && what === "peak" && <PeakView input={input} clock={clockOf(clock || undefined).value} />}
      {on && news && <InputLevel news={news} />}
      <InputChoice input={input} device={device} choose={choose} channelsCount={news?.channelsCount ?? 1} />
      {on && <Heed listening={true} />}
      {isTake(what) && <TakesView key={what} kind={what} input={input} clock={clock} label={input.open?.label ?? ""} to={job} />}
      {on && !isTake(what) && <KeepHeard input={input} what={what === "note" ? "note" : "peak"} clock={clock} to={job} />}
    </main>
  );
}

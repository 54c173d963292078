import { useEffect } from "preact/compat";
import type { LiveNow } from "../../../readings/sound/live";
import type { PeakNow } from "../../../readings/sound/peak";
import type { Place } from "../../../readings/sound/top";
import { useVoice } from "../big/speech";
import { useKept } from "../kept";
import { Select } from "../parts";
import { decibels, levelText, ofWhat, placeSays, spokenLevel } from "./peak-words";
import { useRisingTone, useSaidNowAndThen } from "./sounding";
import { Trend } from "./trend";
import { type Input, useAtOnce, useNews } from "./use-input";

const about = (s: number): string => (s < 90 ? `${Math.max(0, s).toFixed(0)} s` : `${(s / 60).toFixed(0)} min`);

/** The figure and its place, as they are seen. */
interface Figure {
  readonly shown: PeakNow["shown"];
  readonly place: Place | undefined;
}
const figureOf = ({ peak }: LiveNow): Figure => ({ shown: peak?.shown, place: peak?.top?.place });
const sameFigure = (a: Figure, b: Figure): boolean =>
  a.place === b.place && a.shown?.db === b.shown?.db && a.shown?.digits === b.shown?.digits;
/** The level large and where it stands: the one part of the page that moves with every value. */
function Large({ input }: { readonly input: Input }) {
  const { shown, place } = useAtOnce(input, figureOf, sameFigure) ?? {};
  const [shape, says] = place ? placeSays[place] : ["…", "Listening for the level"];
  return (
    <div className={`large ${place === "at the top" ? "best" : ""}`}>
      <p className="level" data-level={shown?.db ?? ""}>
        {levelText(shown)}
        <span className="unit"> dB</span>
      </p>
      <p className="place">
        <span aria-hidden="true">{shape}</span> {says}
      </p>
    </div>
  );
}
/** What the level is of, and what was passed. */
function Beside({ peak, of }: { readonly peak: PeakNow; readonly of: "tone" | "whole" }) {
  const { top, passagesCount: count } = peak;
  return (
    <>
      {top && (
        <p>
          Best {decibels(top.bestDb)} re full scale, {about(peak.atS - top.bestAtS)} ago.{" "}
          {count === 0 ? "No peak passed yet." : count === 1 ? "One peak passed." : `${count} peaks passed.`}
          {top.scatterDb > 0.25 ? ` The level scatters by ${top.scatterDb.toFixed(1)} dB: turn slowly.` : ""}
        </p>
      )}
      <p className={peak.lost ? "warn" : "quiet"}>
        {peak.lost ? `Lost ${ofWhat(peak)}: this is what is left in its place.` : `Level of ${ofWhat(peak)}.`}
        {of === "tone" && peak.measures === "whole"
          ? " There is no steady tone in it, so speech and fading move it. Switch the BFO on, or the generator's modulation."
          : ""}
      </p>
    </>
  );
}

interface Wanted {
  readonly of: "tone" | "whole";
  readonly tone: boolean;
  readonly voice: boolean;
}
const unsaid: Wanted = { of: "tone", tone: false, voice: false };
/** What the ear may have instead of the eye; off until it is asked for. */
function Aloud({ wanted, set, has }: { readonly wanted: Wanted; readonly set: (w: Wanted) => void; readonly has: boolean }) {
  return (
    <div className="aloud">
      <Select
        label="Follow"
        value={wanted.of}
        onChange={(of) => set({ ...wanted, of: of === "whole" ? "whole" : "tone" })}
        options={[
          ["tone", "a steady tone, where there is one"],
          ["whole", "the whole sound"],
        ]}
      />
      <label className="pick">
        <input type="checkbox" checked={wanted.tone} onChange={(e) => set({ ...wanted, tone: e.currentTarget.checked })} />A tone that rises
        with the level
      </label>
      <label className="pick">
        <input
          type="checkbox"
          checked={wanted.voice}
          disabled={!has}
          onChange={(e) => set({ ...wanted, voice: e.currentTarget.checked })}
        />
        Say the level aloud
      </label>
      {(wanted.tone || wanted.voice) && <p className="quiet">With a microphone as the input, use an earphone: it would hear this too.</p>}
      {!has && <p className="quiet">This browser has no voice of its own.</p>}
    </div>
  );
}

/** For the hand on the screwdriver: one large value, where it stands to the best, and the last seconds. */
export function PeakView({ input, clock }: { readonly input: Input; readonly clock: number }) {
  const [wanted, set] = useKept<Wanted>("listen:peak", unsaid);
  const { of } = wanted;
  const { begin, open } = input;
  useEffect(() => {
    if (open) begin({ what: "peak", of }, clock);
  }, [open, begin, of, clock]);
  const news = useNews(input);
  const peak = news?.peak;
  const voice = useVoice(wanted.voice);
  useRisingTone(wanted.tone, input);
  useSaidNowAndThen(wanted.voice ? spokenLevel(peak?.shown) : "", voice.say);
  return (
    <section className="peakview" aria-label="Level">
      <Large input={input} />
      <Trend input={input} bestDb={peak?.top?.bestDb} />
      <button type="button" className="tall plain" onClick={input.afresh}>
        Begin afresh
      </button>
      {peak && <Beside peak={peak} of={of} />}
      <p className="quiet">
        AVC holds the output still while a can is tuned: switch it off, or feed so little that it does nothing. A station off the air fades;
        a generator or the set's own marker doesn't.
      </p>
      <Aloud wanted={wanted} set={set} has={voice.has} />
    </section>
  );
}

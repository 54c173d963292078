import { useEffect, useMemo, useRef, useState } from "preact/compat";
import { multipleOfSwell, sayBeat } from "../../../desk/beat-words";
import { clockOf, hertz } from "../../../desk/heard";
import { clockBy, hertzWithin, plainHz, sayJumps, sayTone } from "../../../desk/tone-words";
import type { ToneEvent, ToneReading } from "../../../readings/sound/follow";
import { clock as clockTime } from "../../../readings/sound/health";
import type { NoteTold } from "../../../readings/sound/note";
import { InputError } from "../../../units/issue";
import { standardUncertainty } from "../../../units/quantity";
import { useKept } from "../kept";
import { Raw } from "../readings/told";
import type { Input } from "./use-input";

const range = { fromHz: 20, toHz: 5000 };
const toldEveryMs = 5000;
/** One reading is shown no finer: a millihertz. */
const shownHz = 1e-3;
/** More are not seen on a drawing. */
const mostDrawn = 600;

interface Track {
  readonly readings: readonly ToneReading[];
  readonly events: readonly ToneEvent[];
  readonly following: boolean;
  readonly told?: NoteTold | undefined;
}
const nothing: Track = { readings: [], events: [], following: false };
/** The track as it grows, and every few seconds what all of it comes to. */
function useTrack({ follow, tell, open }: Input, begun: string): Track {
  const [track, setTrack] = useState<Track>(nothing);
  const readings = useRef<ToneReading[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: begins anew wherever the listening does
  useEffect(() => {
    readings.current = [];
    setTrack(nothing);
    if (!open) return undefined;
    const end = follow(({ note }) => {
      if (!note) return;
      const { fresh, events, following } = note;
      readings.current.push(...fresh);
      setTrack((t) =>
        fresh.length > 0 || events.length !== t.events.length || following !== t.following
          ? { ...t, readings: [...readings.current], events, following }
          : t,
      );
    });
    const timer = setInterval(
      () => void tell(false).then(({ told }) => setTrack((t) => ({ ...t, ...(told.note ? { told: told.note } : {}) }))),
      toldEveryMs,
    );
    return () => {
      end();
      clearInterval(timer);
    };
  }, [follow, tell, open, begun]);
  return track;
}
/** A frequency as it is being typed; undefined where it is none yet. */
function frequency(text: string): number | undefined {
  if (text.trim() === "") return undefined;
  try {
    return hertz(text, "");
  } catch (e) {
    if (e instanceof InputError) return undefined;
    throw e;
  }
}

/** A swell with no tone of its own beside it: what is large then. */
function swellAlone({ told, following }: Track): NoteTold["swell"] {
  return told?.swell && (!following || multipleOfSwell(told) !== undefined) ? told.swell : undefined;
}
/** The frequency large, its last reading or the swell that is counted; what it comes to over all of the time. */
function LargeNote({ track, clockU }: { readonly track: Track; readonly clockU: number }) {
  const last = track.readings.at(-1);
  const tone = track.told && multipleOfSwell(track.told) === undefined ? track.told.tone : undefined;
  const swell = swellAlone(track);
  const byClock = (tone?.meanHz ?? 0) * clockU;
  return (
    <>
      <div className="large note">
        <p className="level" data-hz={swell?.hz ?? last?.hz ?? ""}>
          {swell ? plainHz(swell.hz, swell.uHz) : last ? plainHz(last.hz, Math.max(shownHz, last.uHz)) : "–"}
          <span className="unit"> Hz</span>
        </p>
        <p className="place">
          <span aria-hidden="true">{swell || track.following ? "●" : "○"}</span>{" "}
          {swell ? "Counting the swell" : track.following ? "On the tone" : last ? "Lost the tone" : "Listening for a tone or a swell"}
        </p>
      </div>
      {tone && (
        <p>
          Mean {hertzWithin(tone.meanHz, Math.hypot(tone.uHz, byClock))}. Against itself known to {(2e3 * tone.uHz).toPrecision(2)} mHz
          {byClock > 2 * tone.uHz ? "; most of the interval is the sound device's clock" : ""}. {sayJumps(tone)}
        </p>
      )}
    </>
  );
}
function Events({ events }: { readonly events: readonly ToneEvent[] }) {
  return (
    <ul className="quiet events" aria-live="polite">
      {events.slice(-4).map((e) => (
        <li key={`${e.atS} ${e.kind}`}>
          {clockTime(e.atS)} {sayTone(e)}
        </li>
      ))}
    </ul>
  );
}
function TrackDrawn({ readings }: { readonly readings: readonly ToneReading[] }) {
  const shown = useMemo(() => {
    const each = Math.max(1, Math.ceil(readings.length / mostDrawn));
    const some = readings.filter((_, i) => i % each === 0);
    const trace = { label: "tone", x: some.map((r) => r.atS / 60), y: some.map((r) => r.hz) };
    return { title: "Tone against time", xLabel: "minutes", yLabel: "frequency, Hz", traces: [trace] };
  }, [readings]);
  return readings.length < 3 ? null : <Raw of={shown} />;
}

/** The device's clock by a standard tone, and the way to keep it. */
function Standard({
  told,
  clock,
  keep,
}: {
  readonly told: NoteTold | undefined;
  readonly clock: string;
  readonly keep: (t: string) => void;
}) {
  const [standard, setStandard] = useKept("listen:standard", "");
  const hz = frequency(standard);
  const by = told?.tone && hz !== undefined ? clockBy(told.tone, hz, clockOf(clock || undefined).value) : undefined;
  return (
    <details>
      <summary>The sound device's clock: {clock === "" ? "never measured, taken as within 100 ppm" : clock}</summary>
      <label className="field">
        The tone that is heard is a standard one of
        <input value={standard} placeholder="1 kHz" onChange={(e) => setStandard(e.currentTarget.value)} />
      </label>
      {by && (
        <p>
          {by.ppm
            ? `The clock runs ${by.ppm}. The longer the tone is heard, the better that is known; let the device warm up first.`
            : `The tone is ${by.offPpm.toFixed(0)} ppm off that: another tone, or a receiver that is off by a beat.`}
        </p>
      )}
      {by?.typed && (
        <button type="button" onClick={() => keep(by.typed ?? "")}>
          Keep it for this device
        </button>
      )}
      {clock !== "" && (
        <button type="button" className="plain" onClick={() => keep("")}>
          Forget it
        </button>
      )}
    </details>
  );
}

/** A tone followed over minutes: its frequency large, its track, a slow swell, and what was lost on the way. */
export function NoteView({
  input,
  clock,
  keepClock,
}: {
  readonly input: Input;
  readonly clock: string;
  readonly keepClock: (t: string) => void;
}) {
  const { begin, open } = input;
  const { value, spread } = clockOf(clock || undefined);
  const clockU = standardUncertainty(spread);
  const [carrier, setCarrier] = useKept("listen:carrier", "");
  const track = useTrack(input, clock);
  useEffect(() => {
    if (open) begin({ what: "note", everyS: 1, range }, value);
  }, [open, begin, value]);
  const { told } = track;
  return (
    <section className="noteview" aria-label="Note">
      <LargeNote track={track} clockU={clockU} />
      {told && sayBeat(told, frequency(carrier), clockU).map((t) => <p key={t}>{t}</p>)}
      <TrackDrawn readings={track.readings} />
      <Events events={track.events} />
      <label className="field">
        Carrier that the tone is a beat with
        <input value={carrier} placeholder="10 MHz" onChange={(e) => setCarrier(e.currentTarget.value)} />
      </label>
      <Standard told={told} clock={clock} keep={keepClock} />
    </section>
  );
}

import type { Entry } from "../job/document";
import type { readingStates } from "../job/format";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { type BandTold, type Difference, over, riseSays } from "../readings/sound/noise-level";
import { InputError, orThrow } from "../units/issue";
import { parseQuantity } from "../units/parse";
import { assignment } from "./assignment";
import type { Heard } from "./heard";
import { decibel } from "./hum-entries";
import { soundReading } from "./read-in/sound-reading";

/** One sound's level in the band. */
export interface NoiseOf {
  readonly heard: Heard;
  readonly told: BandTold;
}
/** What two sounds, or one, say. */
export interface NoiseSays {
  readonly first: NoiseOf;
  /** modulation off */
  readonly off?: NoiseOf | undefined;
  /** the antenna's place taken by a dummy load */
  readonly dummy?: NoiseOf | undefined;
  /** (S+N)/N */
  readonly ratio?: Difference | undefined;
  readonly rise?: (Difference & { readonly says: ReturnType<typeof riseSays> }) | undefined;
}
/** What a pair of sounds comes to. */
export function noiseSays(of: Pick<NoiseSays, "first" | "off" | "dummy">): NoiseSays {
  const rise = of.dummy && over(of.first.told, of.dummy.told);
  return {
    ...of,
    ratio: of.off && over(of.first.told, of.off.told),
    rise: rise && { ...rise, says: riseSays(rise.db) },
  };
}

const wrong = (path: string, read: string, expected: string) => new InputError([{ path, code: "bad-request", read, expected }]);
/**
 * A rise of noise is told only where nothing but the antenna was changed and nothing holds the output.
 *
 * @throws {InputError} where the gain is not said to be at manual, or AVC not to be off
 */
export function mayRise(said: { readonly gain?: string | undefined; readonly avc?: string | undefined }): void {
  if (said.gain !== "manual")
    throw wrong(
      "--gain",
      said.gain ?? "",
      "manual: the RF gain set by hand and left there for both recordings, else the rise says nothing",
    );
  if (said.avc !== "off")
    throw wrong("--avc", said.avc ?? "", "off: with AVC on the set turns itself down as the noise rises, so the rise says nothing");
}

/** `0-10 12-22`: seconds of the sound with the modulation on, and with it off. */
export function spansOf(text: string): readonly [{ fromS: number; toS: number }, { fromS: number; toS: number }] {
  const all = [...text.matchAll(/(\d+(?:\.\d+)?)\s*-\s*(\d+(?:\.\d+)?)/g)].map(([, a, b]) => ({ fromS: Number(a), toS: Number(b) }));
  const [on, off] = all;
  if (all.length !== 2 || !(on.fromS < on.toS && off.fromS < off.toS) || !/^[\d\s.,-]+$/.test(text))
    throw wrong("--spans", text, "two stretches in seconds, modulation on, then off: 0-10 12-22");
  return [on, off];
}

interface Kept {
  readonly says: NoiseSays;
  readonly said: {
    readonly state: (typeof readingStates)[number];
    readonly level?: string | undefined;
    readonly depth?: string | undefined;
    readonly mode?: "AM" | "CW or SSB" | undefined;
    readonly avc?: string | undefined;
  };
}
/** Levels and ratios as a reading, and the ratio where the question on sensitivity takes it, if the generator's level was said. */
export function noiseEntries(view: JobView, { says, said }: Kept, stamp: Stamp): readonly Entry[] {
  const { first, ratio, rise } = says;
  const { heard, told } = first;
  const source = heard.name;
  const { fromHz, toHz } = told.band;
  const band = `${fromHz.toFixed(0)} to ${toHz.toFixed(0)} Hz, unweighted`;
  const level = (name: string, of: NoiseOf | undefined) =>
    of ? [decibel(`${name}, ${band}, rms, re full scale`, of.told.rmsDbfs, of.told.uDb, of.heard.name)] : [];
  const reading = soundReading(
    view,
    {
      state: said.state,
      step: "33a",
      file: { name: source, hash: "" },
      columns: { seconds: [told.secondsCount], sampleRateHz: [heard.head.sampleRateHz], bandHz: [fromHz, toHz] },
      figures: [
        ...level(says.off ? "level, modulation on" : says.dummy ? "level, antenna" : "level", first),
        ...level("level, modulation off", says.off),
        ...level("level, dummy load", says.dummy),
        ...(ratio ? [decibel("(S+N)/N", ratio.db, ratio.uDb, source)] : []),
        ...(rise ? [decibel("rise of the noise from dummy load to antenna", rise.db, rise.uDb, source)] : []),
        ...(told.tone ? [decibel("SINAD", told.tone.sinadDb, told.tone.uDb, source)] : []),
      ],
      warnings: [...heard.warnings, ...(said.avc === undefined ? ["whether AVC was on was not said"] : [])],
    },
    stamp,
  );
  const why = `sound of ${source}`;
  const put = (name: string, text: string): Entry =>
    orThrow(assignment(view, `sensitivity.${name}`, text, { origin: "measured", why }, stamp));
  const entries: Entry[] = [{ id: stamp.newId(), at: stamp.at, who: stamp.who, kind: "reading", reading }];
  const told2 = ratio ?? (told.tone && { db: told.tone.sinadDb, uDb: told.tone.uDb });
  if (said.level === undefined) return entries;
  if (!told2) throw wrong("--level", said.level, "a recording with the modulation off beside it (--off, --spans), or a tone for SINAD");
  orThrow(parseQuantity(said.level, "voltage", "--level"));
  return [
    ...entries,
    put("statedRatio", ratio ? "(S+N)/N" : "SINAD"),
    put("ratioDb", `${told2.db} dB u ${Math.max(0.01, told2.uDb)} dB`),
    put("level", said.level),
    put("statedMode", said.mode ?? "AM"),
    ...(said.depth === undefined ? [] : [put("modulationDepth", said.depth)]),
  ];
}

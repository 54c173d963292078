import { heeded } from "../ask/care";
import type { HeededFinding } from "../ask/findings";
import { crackleSays } from "../infer/crackle/says";
import { humSays } from "../infer/hum/says";
import type { Device } from "../readings/sound/device";
import type { TakeFor, TakeTold } from "../readings/sound/live";
import { inputOf } from "../readings/sound/response";
import { noiseLead } from "../standards/audio-lead";
import type { Caution, SetFigures } from "../standards/cautions";
import { generatorLead } from "../standards/generator-lead";
import type { Heard } from "./heard";
import { underFull } from "./hum-entries";
import type { NoiseSays } from "./noise-entries";
import { noiseSays } from "./noise-entries";
import { audioResolutionHz, audioTold, type ResponseTold } from "./response";

/** What recordings of some seconds each are compared for. */
export const takeKinds = ["hum", "noise", "crackle", "response"] as const;
export type TakeKind = (typeof takeKinds)[number];
/** One of the recordings that belong together. */
export interface TakeSlot {
  readonly id: string;
  readonly says: string;
  readonly how: string;
  /** what is to be heeded beside it, where more is led to the set than its sound is led out */
  readonly cautions: readonly Caution[];
}
const slot = (id: string, says: string, how: string, cautions: readonly Caution[] = []): TakeSlot => ({ id, says, how, cautions });
/** Recordings of each kind, the first the one that must be there. */
export const takeSlots: Readonly<Record<TakeKind, readonly TakeSlot[]>> = {
  hum: [
    slot("normal", "As it is used", "Volume as you listen, no station. Ten seconds or more."),
    slot("atZero", "Volume at zero", "Nothing else moved: hum that stays gets in after the volume control."),
    slot("carrier", "On a steady carrier", "Volume as in the first: hum that grows there is modulation hum."),
    slot("full", "At full output", "What the hum is compared with."),
  ],
  noise: [
    slot("first", "Modulation on, or antenna on", "The generator modulated; or a spot without a station, with the antenna."),
    slot("off", "Modulation off, carrier on", "Gives (S+N)/N. Nothing else moved."),
    slot("dummy", "Dummy load for the antenna", "Gives the rise of the noise. RF gain set by hand, AVC off."),
  ],
  crackle: [
    slot("normal", "As it is used", "A minute or more: it comes and goes."),
    slot("without", "Without the antenna", "Its terminals shorted, nothing else moved."),
    slot("atZero", "Volume at zero", "Nothing else moved."),
  ],
  response: [
    slot("loop", "Sound device alone", "Its output led to its input while it plays the test noise: once for each device."),
    slot("audio", "Test noise through the audio", "Led in at the phono or pick-up socket, volume as you listen. Half a minute.", noiseLead),
    slot("envelope", "The set's own noise, AM", "No station. Audio and IF together: a bound, no selectivity."),
    slot("bfo", "The set's own noise, BFO on", "No station, AVC off. Selectivity, where one side of the BFO is known to be out. A minute."),
    slot(
      "generator",
      "A stepped generator",
      "Fixed modulation, AVC off or clamped, or the output held. Begin here, then start the generator.",
      generatorLead,
    ),
  ],
};
/** What the sound is listened to for; the sound device's response, output and input, where a loop-back has measured it. */
export function takeFor(kind: TakeKind, loop?: Device): TakeFor {
  const device = loop && inputOf(loop);
  switch (kind) {
    case "noise":
      return { what: kind, band: { fromHz: 50, toHz: 5000 }, device };
    case "hum":
      return { what: kind, device };
    case "response":
      return { what: kind, resolutionHz: audioResolutionHz };
    case "crackle":
      return { what: kind };
  }
}

/** One recording, as it was heard. */
export interface Take {
  readonly heard: Heard;
  readonly told: TakeTold;
}
export type Takes = Readonly<Partial<Record<string, Take>>>;
/** What is said of them beside the sound. */
export interface TakesHow {
  readonly halfWave?: boolean | undefined;
  readonly figures: SetFigures;
}
/** What recordings of hum say. */
export function humTakes({ normal, atZero, carrier }: Takes, { halfWave, figures }: TakesHow): readonly HeededFinding[] {
  if (!normal?.told.hum) return [];
  const of = { normal: normal.told.hum, atZero: atZero?.told.hum, carrier: carrier?.told.hum, halfWave };
  return heeded(humSays(of), "panel", figures);
}
/** How far all hum lies under full output, as a sentence with its interval; under the sound that it stands in where full output was not taken. */
export function humUnder({ normal, full }: Takes): string | undefined {
  const hum = normal?.told.hum;
  if (!normal || hum?.allRmsDbfs === undefined) return undefined;
  const under = full?.told.hum && underFull({ heard: normal.heard, told: hum }, { heard: full.heard, told: full.told.hum });
  if (!under) return `${(hum.soundRmsDbfs - hum.allRmsDbfs).toFixed(1)} dB under the whole sound of this recording.`;
  const [low, high] = [under.db - 1.96 * under.uDb, under.db + 1.96 * under.uDb];
  return `${under.db.toFixed(1)} dB (${low.toFixed(1)} to ${high.toFixed(1)}) under full output.`;
}
/** What recordings of crackle say. */
export function crackleTakes({ normal, without, atZero }: Takes): readonly HeededFinding[] {
  if (!normal?.told.crackle) return [];
  const of = { normal: normal.told.crackle, without: without?.told.crackle, atZero: atZero?.told.crackle };
  return heeded(crackleSays(of), "panel", {});
}
/** What recordings of noise come to. */
export function noiseTakes(takes: Takes): NoiseSays | undefined {
  const of = (id: string) => {
    const take = takes[id];
    return take?.told.noise && { heard: take.heard, told: take.told.noise };
  };
  const first = of("first");
  return first && noiseSays({ first, off: of("off"), dummy: of("dummy") });
}
/** What a recording of a response comes to, the sound device's own divided out where a loop-back measures it now, or did before. */
export function responseTake(takes: Takes, by: "loop-back" | "audio" | "envelope", kept?: Device): ResponseTold | undefined {
  const of = (id: string) => {
    const take = takes[id];
    return take?.told.spectrum && { heard: take.heard, spectrum: take.told.spectrum };
  };
  const [own, loop] = [of(by === "loop-back" ? "loop" : by), of("loop")];
  if (!own) return undefined;
  const measured = loop && audioTold("loop-back", loop, { onCarrier: false }).points;
  const device = by === "loop-back" ? undefined : (measured ?? kept);
  return audioTold(by, own, { device, onCarrier: false });
}

import { z } from "zod";
import { rehearsalRateHz, sceneKinds } from "../../invented/rehearsal/scene";
import { bandOf, recordedAs } from "../../readings/sound/baseband";
import { openSound } from "../../readings/sound/open-sound";
import type { Dimension } from "../../units/dimensions";
import { InputError, orThrow } from "../../units/issue";
import { oneOf } from "../../units/nearest";
import { parseQuantity } from "../../units/parse";
import { openJob, sheetNamed } from "../actions";
import { declare, field, type LongFile, longFileSchema, output, replace, unseen } from "../declare";
import { pairs } from "../pairs";
import { heardIn, heardQuestions } from "../questions";
import { besideOf, rehearsedWav, rehearse as rehearseStrip, runInS } from "../rehearse";
import { noiseUnder, noiseUnlessKnown } from "../rehearse-noise";

const several = z.union([z.array(z.string()), z.string().transform((s) => s.split(";").filter((x) => x.trim() !== ""))]);
const takes = z.object({
  sheet: field(z.string(), "<question>", `what is changed: ${heardQuestions.join(", ")}`),
  job: field(z.string().optional(), "[job]", "name of the job; usual values if not given"),
  at: field(z.string().optional(), "--at <path>", "which subject, such as fittings.qm"),
  tried: field(z.record(z.string(), z.string()), "--try <name=value>", "what if: another value for an input (repeat as needed)", {
    words: (typed) => pairs(typed, "--try"),
    unsaid: {},
  }),
  curve: field(z.string().optional(), "--curve <name>", "which of the answer's curves is heard as it would be; the usual one if not given"),
  scene: field(z.enum(sceneKinds), "--scene <kind>", "what the set is tuned to: an AM station, SSB, CW", { unsaid: "am" }),
  neighbours: field(
    several,
    "--neighbour <off,level>",
    "another station: how far off, how strong against the wanted one (repeat as needed)",
    {
      words: (typed) => [...typed],
      unsaid: ["9 kHz, -10 dB"],
    },
  ),
  carriers: field(several, "--whistle <off,level>", "a plain carrier, heard as a whistle (repeat as needed)", {
    words: (typed) => [...typed],
    unsaid: ["3 kHz, -20 dB"],
  }),
  noise: field(
    z.string().optional(),
    "--noise <dB>",
    "noise in 6 kHz under the wanted carrier; with a job as its sheet on sensitivity has it, else 30 dB",
  ),
  strength: field(z.string(), "--strength <dBm>", "the wanted carrier at the antenna terminal, for the noise under it: -73 dBm is S9", {
    unsaid: "-73 dBm",
  }),
  recording: field(
    longFileSchema.optional(),
    "--recording <file>",
    "a band that you recorded, in place of a scene: I and Q, or an IF; WAV or FLAC",
    {
      file: "in pieces",
    },
  ),
  recordedAs: field(
    z.enum(recordedAs).optional(),
    "--recorded-as <how>",
    "iq: I left, Q right; qi: the other way round; if: one channel at an intermediate frequency; iq for two channels, if for one, if not given",
  ),
  centre: field(
    z.string().optional(),
    "--centre <frequency>",
    "where in the recording the wanted station stands; 0 Hz of I and Q if not given",
  ),
  begins: field(z.string(), "--begins <time>", "where in the recording to begin", { unsaid: "0 s" }),
  own: unseen(z.string().max(120), ""),
  crashes: field(z.coerce.number().min(0).max(50), "--crashes <per second>", "atmospheric crashes, 10 dB above the carrier", {
    unsaid: "0",
  }),
  fading: field(z.string(), "--fading <dB>", "depth of selective fading; 0 dB for none", { unsaid: "0 dB" }),
  speed: field(z.coerce.number().min(5).max(60), "--speed <words a minute>", "speed of CW", { unsaid: "20" }),
  seconds: field(z.coerce.number().min(2).max(60), "--seconds <count>", "how long", { unsaid: "10" }),
  avc: field(z.enum(["on", "off"]), "--avc <state>", "AVC; off is manual gain", { unsaid: "on" }),
  avcDown: field(z.string(), "--avc-down <time>", "time constant in which AVC turns the gain down", { unsaid: "50 ms" }),
  avcUp: field(z.string(), "--avc-up <time>", "time constant in which it turns the gain up again", { unsaid: "0.5 s" }),
  pitch: field(z.string(), "--pitch <frequency>", "pitch of CW", { unsaid: "700 Hz" }),
});
type Said = z.output<typeof takes>;
const inSi = (text: string, dimension: Dimension, path: string, [least, most]: readonly [number, number]): number => {
  const { value } = orThrow(parseQuantity(text, dimension, path));
  if (!(value >= least && value <= most))
    throw new InputError([{ path, code: "out-of-range", read: text, expected: `from ${least} to ${most}` }]);
  return value;
};
const avcTimes = [0.001, 30] as const;
/** The band that a person recorded, around the wanted station. */
async function ownBand(file: LongFile, said: Omit<Said, "job" | "recording">): Promise<Float64Array> {
  const sound = orThrow(await openSound(file.pieces(), file.name, file.bytesCount));
  const as = said.recordedAs ?? (sound.channelsCount === 2 ? "iq" : "if");
  const centre = said.centre ?? (as === "if" ? "" : "0 Hz");
  const centreHz = orThrow(parseQuantity(centre, "frequency", "--centre")).value;
  const fromS = inSi(said.begins, "time", "--begins", [0, 86_400]);
  return orThrow(await bandOf(sound, file.name, { as, centreHz, fromS, secondsCount: said.seconds + runInS }, rehearsalRateHz));
}
function sceneOf(said: Omit<Said, "job" | "recording">, noiseDb: number) {
  return {
    kind: said.scene,
    seconds: said.seconds,
    neighbours: besideOf(said.neighbours, "--neighbour"),
    carriers: besideOf(said.carriers, "--whistle"),
    noiseDb,
    crashes: { perSecond: said.crashes, levelDb: 10 },
    fadingDb: inSi(said.fading, "decibel", "--fading", [0, 40]),
    speed: said.speed,
  };
}

export const rehearse = declare({
  name: "rehearse",
  says: "hear a change before it is made: a band through this set's strip as it is and as it would be",
  example: 'fettle rehearse q-multiplier "Harbour club set" --try regeneration=0.95 --whistle "3 kHz, -10 dB" -o club.wav',
  records: false,
  takes,
  here: z.object({ output: output("file to write, ending in .wav: two files, as it is and as it would be"), replace: replace() }),
  act: async ({ job, recording, ...said }, at) => {
    const question = sheetNamed(said.sheet);
    const hears = heardIn(question.id);
    if (!hears)
      throw new InputError([{ path: "<question>", code: "not-heard", read: question.id, expected: oneOf(question.id, heardQuestions) }]);
    const curve = said.curve ?? hears.asItWouldBe[0];
    if (!hears.asItWouldBe.includes(curve))
      throw new InputError([{ path: "--curve", code: "no-curve", read: curve, expected: oneOf(curve, hears.asItWouldBe) }]);
    const detector = {
      kind: said.scene,
      pitchHz: inSi(said.pitch, "frequency", "--pitch", [200, 2000]),
      avc:
        said.avc === "on"
          ? { attackS: inSi(said.avcDown, "time", "--avc-down", avcTimes), decayS: inSi(said.avcUp, "time", "--avc-up", avcTimes) }
          : undefined,
      audio: { lowHz: 100, highHz: 5000 },
    };
    const view = job === undefined ? undefined : await at.desk((d) => openJob(d, job));
    const own = recording ? { name: recording.name, band: await ownBand(recording, said) } : said.own ? { name: said.own } : undefined;
    const strengthDbm = inSi(said.strength, "dbm", "--strength", [-160, 20]);
    const typed = said.noise?.trim() ? { noiseDb: inSi(said.noise, "decibel", "--noise", [-20, 90]), says: "" } : undefined;
    const known = async () =>
      view && !own
        ? noiseUnder(
            await at.errands.run("sheet", { document: view.document, sheet: "sensitivity", ask: { overrides: {}, draws: 200 } }, at),
            strengthDbm,
          )
        : noiseUnlessKnown;
    const noise = typed ?? (await known());
    const scene = sceneOf(said, noise.noiseDb);
    const ask = (overrides: Readonly<Record<string, string>>) =>
      at.errands.run("sheet", { document: view?.document, sheet: question.id, at: said.at, ask: { overrides, draws: 200 } }, at);
    const would = await ask(said.tried);
    const is = Object.keys(said.tried).length > 0 && hears.asItWouldBe.includes(hears.asItIs) ? await ask({}) : would;
    return rehearseStrip({ answer: is, curve: hears.asItIs }, { answer: would, curve }, { scene, own, noiseSays: noise.says }, detector);
  },
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/rehearse",
      body: "json",
      gives: (done) => {
        const { figures, card } = done.rendered();
        return { json: { figures, card } };
      },
    },
    { method: "POST", may: "bench", path: "/api/rehearse.sides", body: "json", gives: (done) => ({ json: done.live() }) },
    {
      method: "POST",
      may: "bench",
      path: "/api/rehearse.band",
      body: "json",
      gives: (done) => ({ paper: done.band(), type: "application/octet-stream" }),
    },
    {
      method: "POST",
      may: "bench",
      path: "/api/rehearse.wav",
      body: "json",
      gives: (done) => ({ paper: rehearsedWav(done.rendered()), type: "audio/wav", file: "rehearsed.wav" }),
    },
  ],
});

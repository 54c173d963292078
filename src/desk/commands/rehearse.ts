import { z } from "zod";
import { sceneKinds } from "../../invented/rehearsal/scene";
import type { Dimension } from "../../units/dimensions";
import { InputError, orThrow } from "../../units/issue";
import { oneOf } from "../../units/nearest";
import { parseQuantity } from "../../units/parse";
import { openJob, sheetNamed } from "../actions";
import { declare, field, output, replace } from "../declare";
import { pairs } from "../pairs";
import { heardIn, heardQuestions } from "../questions";
import { besideOf, rehearsedWav, rehearse as rehearseStrip } from "../rehearse";

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
  noise: field(z.string(), "--noise <dB>", "noise in 6 kHz under the wanted carrier", { unsaid: "30 dB" }),
  crashes: field(z.coerce.number().min(0).max(50), "--crashes <per second>", "atmospheric crashes, 10 dB above the carrier", {
    unsaid: "0",
  }),
  fading: field(z.string(), "--fading <dB>", "depth of selective fading; 0 dB for none", { unsaid: "0 dB" }),
  speed: field(z.coerce.number().min(5).max(60), "--speed <words a minute>", "speed of CW", { unsaid: "20" }),
  seconds: field(z.coerce.number().min(2).max(60), "--seconds <count>", "how long", { unsaid: "10" }),
  avc: field(z.enum(["on", "off"]), "--avc <state>", "AVC, 50 ms down and 0.5 s up; off is manual gain", { unsaid: "on" }),
  pitch: field(z.string(), "--pitch <frequency>", "pitch of CW", { unsaid: "700 Hz" }),
});
const inSi = (text: string, dimension: Dimension, path: string, [least, most]: readonly [number, number]): number => {
  const { value } = orThrow(parseQuantity(text, dimension, path));
  if (!(value >= least && value <= most))
    throw new InputError([{ path, code: "out-of-range", read: text, expected: `from ${least} to ${most}` }]);
  return value;
};
function sceneOf(said: z.output<typeof takes>) {
  return {
    kind: said.scene,
    seconds: said.seconds,
    neighbours: besideOf(said.neighbours, "--neighbour"),
    carriers: besideOf(said.carriers, "--whistle"),
    noiseDb: inSi(said.noise, "decibel", "--noise", [-20, 90]),
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
  act: async ({ job, ...said }, at) => {
    const question = sheetNamed(said.sheet);
    const hears = heardIn(question.id);
    if (!hears)
      throw new InputError([{ path: "<question>", code: "not-heard", read: question.id, expected: oneOf(question.id, heardQuestions) }]);
    const curve = said.curve ?? hears.asItWouldBe[0];
    if (!hears.asItWouldBe.includes(curve))
      throw new InputError([{ path: "--curve", code: "no-curve", read: curve, expected: oneOf(curve, hears.asItWouldBe) }]);
    const scene = sceneOf(said);
    const detector = {
      kind: said.scene,
      pitchHz: inSi(said.pitch, "frequency", "--pitch", [200, 2000]),
      avc: said.avc === "on" ? { attackS: 0.05, decayS: 0.5 } : undefined,
      audio: { lowHz: 100, highHz: 5000 },
    };
    const view = job === undefined ? undefined : await at.desk((d) => openJob(d, job));
    const ask = (overrides: Readonly<Record<string, string>>) =>
      at.errands.run("sheet", { document: view?.document, sheet: question.id, at: said.at, ask: { overrides, draws: 200 } }, at);
    const would = await ask(said.tried);
    const is = Object.keys(said.tried).length > 0 && hears.asItWouldBe.includes(hears.asItIs) ? await ask({}) : would;
    return rehearseStrip({ answer: is, curve: hears.asItIs }, { answer: would, curve }, scene, detector);
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

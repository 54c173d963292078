import { z } from "zod";
import { testNoise, testNoiseRateHz } from "../../invented/test-noise";
import { wavOf } from "../../readings/sound/wav-with-card";
import { declare, field, output, replace } from "../declare";

const says = "White noise for measuring responses, 12 dB under full scale, invented: it sounds the same each time.";
export const testNoiseCommand = declare({
  name: "test-noise",
  says: "write a minute of white noise as a WAV file, to be played into the audio stages or back into the sound device",
  example: "fettle test-noise -o hiss.wav",
  records: false,
  takes: z.object({
    seconds: field(z.coerce.number().int().min(10).max(600), "--seconds <count>", "how long", { unsaid: "60" }),
  }),
  here: z.object({ output: output(), replace: replace() }),
  act: async ({ seconds }) => wavOf([testNoise(seconds)], testNoiseRateHz, says),
});

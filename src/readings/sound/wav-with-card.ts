const letters = (s: string): Uint8Array => new TextEncoder().encode(s);
function chunk(id: string, body: Uint8Array): Uint8Array {
  const out = new Uint8Array(8 + body.length + (body.length % 2));
  out.set(letters(id));
  new DataView(out.buffer).setUint32(4, body.length, true);
  out.set(body, 8);
  return out;
}
const joined = (parts: readonly Uint8Array[]): Uint8Array => {
  const out = new Uint8Array(parts.reduce((n, p) => n + p.length, 0));
  let at = 0;
  for (const p of parts) {
    out.set(p, at);
    at += p.length;
  }
  return out;
};

/**
 * Sounds as a WAV file of 16 bits, a channel each, with a card in it that says what it is.
 *
 * @param sounds samples of each channel, as many of each, full scale 1; beyond it they are clipped
 * @param sampleRateHz Hz
 * @param says what it is: kept in the file as its comment
 * @returns the file
 * @source Multimedia Programming Interface and Data Specifications 1.0: RIFF WAVE, LIST INFO ICMT (read in part)
 */
export function wavOf(sounds: readonly Float64Array[], sampleRateHz: number, says: string): Uint8Array {
  const channels = sounds.length;
  const count = sounds[0]?.length ?? 0;
  const format = new DataView(new ArrayBuffer(16));
  for (const [at, value] of [
    [0, 1],
    [2, channels],
    [12, 2 * channels],
    [14, 16],
  ])
    format.setUint16(at, value, true);
  format.setUint32(4, sampleRateHz, true);
  format.setUint32(8, 2 * channels * sampleRateHz, true);
  const data = new DataView(new ArrayBuffer(2 * channels * count));
  for (const [c, x] of sounds.entries())
    for (const [i, v] of x.entries()) data.setInt16(2 * (i * channels + c), Math.round(32767 * Math.max(-1, Math.min(1, v))), true);
  const comment = joined([letters("INFO"), chunk("ICMT", joined([letters(says), Uint8Array.of(0)]))]);
  return chunk(
    "RIFF",
    joined([
      letters("WAVE"),
      chunk("fmt ", new Uint8Array(format.buffer)),
      chunk("LIST", comment),
      chunk("data", new Uint8Array(data.buffer)),
    ]),
  );
}

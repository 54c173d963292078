/** Bytes of a broadcast chunk of version 1, without a coding history. */
const bextBytes = 602;
const headBytes = 12 + 8 + 16 + 8 + bextBytes + 8;

/**
 * A sound of one channel as a WAV file, 16 bits, with the time at which it began.
 *
 * @param parts samples, full scale 32767, in order
 * @param sampleRateHz samples a second
 * @param begun `2026-11-20 19:04:11`, this place's own time
 * @source Multimedia Programming Interface and Data Specifications 1.0 (IBM/Microsoft, 1991), pp. 56-65; chunk bext: EBU Tech 3285 (from memory)
 */
export function writeWav(parts: readonly Int16Array[], sampleRateHz: number, begun: string): Uint8Array<ArrayBuffer> {
  const count = parts.reduce((s, p) => s + p.length, 0);
  const out = new Uint8Array(headBytes + 2 * count);
  const view = new DataView(out.buffer);
  const letters = (at: number, text: string): void => {
    for (let i = 0; i < text.length; i++) out[at + i] = text.charCodeAt(i);
  };
  letters(0, "RIFF");
  view.setUint32(4, out.length - 8, true);
  letters(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, sampleRateHz, true);
  view.setUint32(28, 2 * sampleRateHz, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  letters(36, "bext");
  view.setUint32(40, bextBytes, true);
  letters(44 + 320, begun.slice(0, 10));
  letters(44 + 330, begun.slice(11, 19));
  view.setUint16(44 + 346, 1, true);
  const data = 44 + bextBytes;
  letters(data, "data");
  view.setUint32(data + 4, 2 * count, true);
  let at = data + 8;
  for (const part of parts)
    for (const v of part) {
      view.setInt16(at, v, true);
      at += 2;
    }
  return out;
}

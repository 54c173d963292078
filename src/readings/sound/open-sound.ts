import { bad, type Read } from "../../units/issue";
import { isFlac } from "./flac-head";
import { openFlac } from "./open-flac";
import { openWav } from "./open-wav";
import { joined, type Pieces, type Sound, type SoundKind } from "./sound";
import { isWav } from "./wav-head";

const kinds: readonly SoundKind[] = [
  { is: isWav, open: openWav },
  { is: isFlac, open: openFlac },
];
const enough = 12;

/**
 * Opens a sound file that comes in pieces, by what its first bytes are, whatever it is called.
 *
 * @param pieces the file, from its beginning
 * @param name its name, for the errors
 * @param bytesCount how long it is; undefined of what is piped in
 * @returns its head, and its samples block by block; or the located issue
 * @source house frame
 */
export async function openSound(pieces: Pieces, name: string, bytesCount?: number): Promise<Read<Sound>> {
  const from = pieces[Symbol.asyncIterator]();
  let first: Uint8Array = new Uint8Array(0);
  while (first.length < enough) {
    const { done, value } = await from.next();
    if (done) break;
    first = joined(first, value);
  }
  const kind = kinds.find((k) => k.is(first));
  if (kind) return kind.open(from, { name, first, bytesCount });
  const read = first.length === 0 ? "" : String.fromCharCode(...first.subarray(0, 4)).replace(/[^ -~]/g, "·");
  return bad(name, "not-sound", read, "a sound file: WAV (also RF64) or FLAC");
}

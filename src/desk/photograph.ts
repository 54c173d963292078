import { hashOfBytes } from "../store/archive";
import type { StoredFile } from "../store/store";
import { InputError } from "../units/issue";

/** Media that the page shows. */
export const photographs = ["image/jpeg", "image/png"];
/** What a photograph is by its first bytes. */
const mediaOf = ([first, second]: Uint8Array): string | undefined =>
  first === 0xff && second === 0xd8 ? "image/jpeg" : first === 0x89 && second === 0x50 ? "image/png" : undefined;

/**
 * A photograph as it is kept with a job.
 *
 * @param file name and bytes
 * @param path the field that it was said in
 * @throws {InputError} where it is neither JPEG nor PNG
 */
export function photographOf(file: { readonly name: string; readonly bytes: Uint8Array }, path: string): StoredFile {
  const media = mediaOf(file.bytes);
  if (media === undefined) throw new InputError([{ path, code: "bad-request", read: file.name, expected: "a JPEG or PNG photograph" }]);
  return { hash: hashOfBytes(file.bytes), name: file.name.slice(-120) || "photograph", media, bytes: file.bytes };
}

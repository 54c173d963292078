import { strFromU8, unzipSync } from "fflate";
import { bad, good, type Read } from "../units/issue";

/** What a job's zip may hold; each is refused by what the zip says of itself, before anything of it is unpacked. */
const mostEntries = 20_000;
const largestEntryBytes = 256 * 1024 * 1024;
const largestBytes = 512 * 1024 * 1024;
/** No packed byte stands for more than so many. Source: RFC 1951, 258 bytes by two bits at the best, with its heads. */
const mostPacked = 1032;
const ours = /^(?:[a-z.]{1,40}\.json|readings\/.{1,200}|files\/.{1,200})$/;

class Beyond extends Error {
  constructor(
    readonly read: string,
    readonly expected: string,
  ) {
    super(expected);
  }
}
const mb = (bytes: number): string => `${Math.round(bytes / 1048576)} MB`;

/**
 * The parts of a zip that are a job's; what else lies in it stays packed.
 *
 * @param bytes the zip
 * @param name its name, for the error
 * @returns parts by their names, or the issue where it is no zip or holds too much
 * @source PKWARE APPNOTE 6.3 (zip), unpacked by the library fflate
 */
export function unpack(bytes: Uint8Array, name: string): Read<Record<string, Uint8Array>> {
  let total = 0;
  let entries = 0;
  try {
    return good(
      unzipSync(bytes, {
        filter: (f) => {
          if (++entries > mostEntries) throw new Beyond(`more than ${mostEntries} files`, `a zip of at most ${mostEntries} files`);
          if (!ours.test(f.name)) return false;
          if (f.size > bytes.length || f.originalSize > mostPacked * f.size + 64)
            throw new Beyond(`${f.name}, ${mb(f.originalSize)} in ${f.size} bytes`, "files as large as their packing allows");
          total += f.originalSize;
          if (f.originalSize > largestEntryBytes)
            throw new Beyond(`${f.name}, ${mb(f.originalSize)}`, `files of at most ${mb(largestEntryBytes)} each`);
          if (total > largestBytes) throw new Beyond(`${mb(total)} unpacked`, `at most ${mb(largestBytes)} unpacked`);
          return true;
        },
      }),
    );
  } catch (e) {
    return e instanceof Beyond
      ? bad(name, "too-large", e.read, e.expected)
      : bad(name, "not-a-zip", strFromU8(bytes.subarray(0, 4), true), "a job exported by Fettle (a zip)");
  }
}

import type { Read } from "../units/issue";
import { readTable } from "./delimited";
import type { Sweep } from "./sweep";
import { type SweepOptions, sweepOfTable } from "./sweep-of-table";
import { readTouchstone, sweepOfNetwork } from "./touchstone";

interface Reader {
  readonly name: string;
  readonly recognises: (name: string, head: string) => boolean;
  readonly read: (bytes: Uint8Array, name: string, options: SweepOptions) => Read<Sweep>;
}

/** File name first, then what the text looks like. */
const readers: readonly Reader[] = [
  {
    name: "Touchstone",
    recognises: (name, head) =>
      /\.(s\d{1,2}p|ts)$/i.test(name) ||
      /^\s*\[\s*version\s*\]/im.test(head) ||
      /^#(?=[^\n]*\s[syzhg]\s)(?=[^\n]*\s(?:ma|db|ri)\b)(?:\s+(?:[kmg]?hz|[syzhg]|ma|db|ri|r|[\d.e+]+))+\s*(?:!.*)?$/im.test(head),
    read: (bytes, name) => {
      const n = readTouchstone(bytes, name);
      return n.ok ? sweepOfNetwork(n.value, name) : n;
    },
  },
  {
    name: "table",
    recognises: () => true,
    read: (bytes, name, options) => {
      const t = readTable(bytes, name);
      return t.ok ? sweepOfTable(t.value, name, options) : t;
    },
  },
];

/**
 * Reads a sweep from a file of any known kind.
 *
 * @param bytes the file
 * @param name its name
 * @param options what the file does not say itself
 * @returns the sweep, or the located issue
 * @source house frame
 */
export function readSweep(bytes: Uint8Array, name: string, options: SweepOptions = {}): Read<Sweep> {
  const head = new TextDecoder("latin1").decode(bytes.subarray(0, 4096));
  return readers.find((r) => r.recognises(name, head))!.read(bytes, name, options);
}

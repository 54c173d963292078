import { type Command, Option } from "commander";
import type { Desk } from "../../desk/actions";
import type { Errands } from "../../desk/errand";
import { InputError } from "../../units/issue";
import { origins } from "../../units/quantity";
import type { World } from "./world";

/** What every group of commands is built with. */
export interface Commands {
  readonly command: (name: string, description: string, example: string) => Command;
  /** opens the store, works on it, closes it */
  readonly desk: <T>(work: (d: Desk) => Promise<T>) => Promise<T>;
  readonly world: World;
  /** who does what may take long or much */
  readonly errands: Errands;
  /** sets the exit code: 1 judged and found wanting, 2 no answer */
  readonly judge: (code: 1 | 2) => void;
}

/** Gathers an option that may be repeated. */
export const collect = (value: string, before: readonly string[]): string[] => [...before, value];

/** `name=value` pairs as typed. */
export function pairs(list: readonly string[], option: string): Record<string, string> {
  const out: [string, string][] = [];
  for (const item of list) {
    const at = item.indexOf("=");
    if (at < 1)
      throw new InputError([{ path: option, code: "no-equals", read: item, expected: 'NAME=VALUE, such as cableLength="90 cm"' }]);
    out.push([item.slice(0, at).trim(), item.slice(at + 1).trim()]);
  }
  return Object.fromEntries(out);
}

/** Where a value that a person records comes from. */
export const whence = (): Option =>
  new Option("--origin <origin>", "where it comes from")
    .choices(origins.filter((x) => x !== "computed" && x !== "tried" && x !== "fitted"))
    .default("stated");

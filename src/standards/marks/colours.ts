import { bad, good, type Read } from "../../units/issue";
import { own } from "../../units/own";

/** Marks of old parts, told in words; where a mark can be read in more than one way, each way is told. Source beside each table. */
export interface Told {
  readonly value: string;
  readonly tolerance: string;
  readonly also: string;
}

/** Colours of the digits, in their order. */
export const colours = ["black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white"] as const;
const alias: Readonly<Record<string, string>> = { gray: "grey", purple: "violet", slate: "grey", no: "none" };
/** What a colour multiplies by; undefined where it is none. */
export const multiplierOf = (c: string): number | undefined =>
  c === "gold"
    ? 0.1
    : c === "silver"
      ? 0.01
      : (colours as readonly string[]).includes(c)
        ? 10 ** (colours as readonly string[]).indexOf(c)
        : undefined;
/** The digit of a colour; -1 where it is none. */
export const digitOf = (c: string): number => (colours as readonly string[]).indexOf(c);

/** Colours by name, in order, as a person writes them. */
export const words = (said: string): string[] =>
  said
    .toLowerCase()
    .split(/[^a-z]+/)
    .filter((w) => w !== "")
    .map((w) => own(alias, w) ?? w);
/** Colours as the digits of one number; or the place that is wrong. */
export const digits = (names: readonly string[], path: string): Read<number> => {
  const wrong = names.findIndex((n) => digitOf(n) < 0);
  return wrong >= 0
    ? bad(`${path} ${wrong + 1}`, "not-a-digit", names[wrong], `one of ${colours.join(", ")}`)
    : good(names.reduce((v, n) => 10 * v + digitOf(n), 0));
};
/** A number times what a colour multiplies by; or the place that is wrong. */
export const multiplied = (base: number, c: string, path: string): Read<number> => {
  const m = multiplierOf(c);
  return m === undefined ? bad(path, "not-a-multiplier", c, `one of ${colours.join(", ")}, gold, silver`) : good(base * m);
};

/** Version 5 of the format calls the bulb in series a bulb everywhere: names of addresses and of a card's fields, the old one to the new. */
type Loose = Readonly<Record<string, unknown>>;
const isLoose = (x: unknown): x is Loose => typeof x === "object" && x !== null && !Array.isArray(x);

const ofSupplies: Readonly<Record<string, string>> = {
  lampWatts: "bulbWatts",
  lampRated: "bulbRated",
  setVoltsBehindLamp: "setVoltsBehindBulb",
};
const ofPaths = Object.fromEntries(Object.entries(ofSupplies).map(([was, is]) => [`supplies.${was}`, `supplies.${is}`]));
const ofFields: Readonly<Record<string, string>> = {
  "Lamp, W": "Bulb, W",
  "Volts on the set behind the lamp, V": "Volts on the set behind the bulb, V",
  "B+ behind the lamp, V": "B+ behind the bulb, V",
};

/** What is kept by name, by its new names; the very same where it holds none that is old, and what stands under the new name already stays. */
function renamed(held: Loose, names: Readonly<Record<string, string>>): Loose {
  if (!Object.keys(held).some((n) => Object.hasOwn(names, n))) return held;
  return Object.fromEntries(
    Object.entries(held).flatMap(([n, v]) => {
      const is = Object.hasOwn(names, n) ? names[n] : n;
      return is !== n && Object.hasOwn(held, is) ? [] : [[is, v]];
    }),
  );
}
/** The same with one of its parts renamed. */
function within(held: Loose, part: string, names: Readonly<Record<string, string>>): Loose {
  const own = held[part];
  if (!isLoose(own)) return held;
  const now = renamed(own, names);
  return now === own ? held : { ...held, [part]: now };
}

/**
 * Entries of version 4 by the names of version 5.
 *
 * @param entries entries of a job of version 4, in order
 * @returns the same entries, values and cards' fields by their new names; the very same where nothing changes
 * @source house format, docs/job-format.md
 */
export const entriesInFive = (entries: readonly unknown[]): unknown[] =>
  entries.map((e) => {
    if (!isLoose(e)) return e;
    if (e.kind === "values") return within(e, "values", ofPaths);
    return e.kind === "form" ? within(e, "fields", ofFields) : e;
  });

/**
 * A set of version 4 by the names of version 5.
 *
 * @param set the set's description, of unknown shape
 * @returns the same, what its supplies keep by name under its new one, and what is a guess by its new path
 * @source house format, docs/job-format.md
 */
export function setInFive(set: unknown): unknown {
  if (!isLoose(set)) return set;
  const guessed = within(set, "guessed", ofPaths);
  if (!isLoose(guessed.supplies)) return guessed;
  const supplies = within(guessed.supplies, "values", ofSupplies);
  return supplies === guessed.supplies ? guessed : { ...guessed, supplies };
}

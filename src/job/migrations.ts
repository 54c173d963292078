/** What earlier versions of the format wrote, brought up to date: on data of unknown shape, since it is read before it is checked. */
type Loose = Readonly<Record<string, unknown>>;
const isLoose = (x: unknown): x is Loose => typeof x === "object" && x !== null && !Array.isArray(x);

/**
 * Cards as version 1 wrote them, each entry the whole card, turned into entries of the fields that they change: what an entry left out of what
 * had been written before it is emptied by it, so that each reads as it did, taken back or not.
 *
 * @param entries entries of a job of version 1, in order
 * @returns the same entries, those of cards with their emptied fields
 * @source house format, docs/job-format.md
 */
export function cardsByField(entries: readonly unknown[]): unknown[] {
  const written = new Map<string, Set<string>>();
  return entries.map((e) => {
    if (!isLoose(e) || e.kind !== "form" || typeof e.form !== "string" || !isLoose(e.fields)) return e;
    const known = written.get(e.form) ?? new Set<string>();
    written.set(e.form, known);
    const own = Object.entries(e.fields);
    const names = new Set(own.map(([name]) => name));
    const emptied = [...known].filter((name) => !names.has(name)).map((name) => [name, ""] as const);
    for (const name of names) known.add(name);
    return emptied.length === 0 ? e : { ...e, fields: Object.fromEntries([...own, ...emptied]) };
  });
}

const readingId = (e: unknown): string | undefined =>
  isLoose(e) && e.kind === "reading" && isLoose(e.reading) && typeof e.reading.id === "string" ? e.reading.id : undefined;

/** An entry that was made of a reading, told to belong to the reading of another id; undefined where it is none. */
function madeOf(e: unknown, from: string, to: string): Loose | undefined {
  if (!isLoose(e)) return undefined;
  if (e.kind === "estimate" && isLoose(e.estimate) && Array.isArray(e.estimate.fromReadings) && e.estimate.fromReadings[0] === from)
    return { ...e, estimate: { ...e.estimate, id: `fit-${to}`, fromReadings: [to] } };
  if (e.kind !== "values" || e.why !== `fit to reading ${from}` || !isLoose(e.values)) return undefined;
  const values = Object.entries(e.values).map(([path, q]) => [
    path,
    isLoose(q) && q.joint === `fit-${from}` ? { ...q, joint: `fit-${to}`, source: `fit fit-${to}` } : q,
  ]);
  return { ...e, why: `fit to reading ${to}`, values: Object.fromEntries(values) };
}

/**
 * Readings that two hands gave one id are told apart: the later one gets an id of its own, and what was recorded with it goes along.
 *
 * @param entries entries of a job, in order
 * @returns the same entries, every reading with an id that no other has
 * @source house format, docs/job-format.md
 */
export function readingsApart(entries: readonly unknown[]): unknown[] {
  const taken = new Set<string>();
  let renamed: { readonly from: string; readonly to: string } | undefined;
  return entries.map((e) => {
    const id = readingId(e);
    if (id === undefined) {
      const follower = renamed && madeOf(e, renamed.from, renamed.to);
      if (!follower) renamed = undefined;
      return follower ?? e;
    }
    renamed = undefined;
    if (!taken.has(id)) {
      taken.add(id);
      return e;
    }
    let n = 2;
    while (taken.has(`${id}-${n}`)) n++;
    const to = `${id}-${n}`;
    taken.add(to);
    renamed = { from: id, to };
    const entry = e as Loose & { readonly reading: Loose };
    return { ...entry, reading: { ...entry.reading, id: to } };
  });
}

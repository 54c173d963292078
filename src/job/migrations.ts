import { addressAt } from "../set/addresses";
import { readRows, rowsToStore } from "../set/columns";
import { renamedInThree } from "./renamed";

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
  return { ...e, why: `fit to reading ${to}`, fit: `fit-${to}`, values: Object.fromEntries(values) };
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

/**
 * The path that a value is kept at in version 3; the subject stands for the star.
 *
 * @param path today's, or that of an older version
 * @returns today's
 * @source house format, docs/job-format.md
 */
export function pathInThree(path: string): string {
  if (Object.hasOwn(renamedInThree, path)) return renamedInThree[path];
  const [holder, subject, ...rest] = path.split(".");
  const old = `${holder}.*.${rest.join(".")}`;
  return Object.hasOwn(renamedInThree, old) ? renamedInThree[old].replace("*", subject) : path;
}

/** Member of a list of the set, by its id. */
const memberOf = (set: unknown, list: string, id: string): Loose | undefined => {
  const all = isLoose(set) ? set[list] : undefined;
  const found = Array.isArray(all) ? all.find((x) => isLoose(x) && x.id === id) : undefined;
  return isLoose(found) ? found : undefined;
};
/** A quantity times a number, its spread too. */
function scaled(q: unknown, times: number): unknown {
  if (!isLoose(q) || typeof q.value !== "number" || !isLoose(q.spread)) return q;
  const by = (x: unknown): unknown => (typeof x === "number" ? x * times : x);
  const { u, half, ...shape } = q.spread;
  const spread = { ...shape, ...(u === undefined ? {} : { u: by(u) }), ...(half === undefined ? {} : { half: by(half) }) };
  return { ...q, value: q.value * times, spread };
}
/**
 * A value at its address of version 3. The noise of a frequency read became a share of it: of the middle of its band, the root of its ends' product. A
 * converter's error of the dial, which counts "reads low" as more, was told apart from the dial's own, which counts it the other way.
 */
function valueInThree(path: string, q: unknown, set: unknown): readonly [string, unknown] {
  const [holder, id, name] = path.split(".");
  if (holder === "bands" && name === "readingNoiseFrequency") {
    const band = memberOf(set, "bands", id);
    const end = (of: "low" | "high", usual: number): number => {
      const own = band?.[of];
      return isLoose(own) && typeof own.value === "number" && own.value > 0 ? own.value : usual;
    };
    return [`bands.${id}.readingNoiseShare`, scaled(q, 1 / Math.sqrt(end("low", 1.6e6) * end("high", 4.8e6)))];
  }
  if (holder === "fittings" && name === "dialError" && memberOf(set, "fittings", id)?.kind === "converter")
    return [`fittings.${id}.readsLow`, q];
  return [pathInThree(path), q];
}

/** Rows that were kept as text, by the columns of their address; undefined where the path holds none or the text can't be read. */
function rowsOf(path: string, text: unknown): Record<string, number | string>[] | undefined {
  const at = addressAt(path);
  if (at?.kind !== "list" || typeof text !== "string") return undefined;
  const rows = readRows(text, path, at);
  return rows.ok ? rowsToStore(rows.value, at.columns) : undefined;
}

/**
 * Entries of version 2 by the addresses of version 3: values and facts at their new paths, rows as rows, a fit by its name.
 *
 * @param entries entries of a job of version 2, in order
 * @param set the job's set, of version 2
 * @returns the same entries as version 3 has them
 * @source house format, docs/job-format.md
 */
export function entriesInThree(entries: readonly unknown[], set: unknown): unknown[] {
  const fitOf = new Map<string, string>();
  return entries.map((e) => {
    if (!isLoose(e)) return e;
    if (e.kind === "estimate" && isLoose(e.estimate) && Array.isArray(e.estimate.fromReadings) && typeof e.estimate.id === "string")
      fitOf.set(String(e.estimate.fromReadings[0]), e.estimate.id);
    if (e.kind === "fact" && typeof e.path === "string") return factInThree(e, e.path);
    if (e.kind !== "values" || !isLoose(e.values)) return e;
    const values = Object.fromEntries(Object.entries(e.values).map(([path, q]) => valueInThree(path, q, set)));
    const reading = typeof e.why === "string" ? /^fit to reading (\S+)$/.exec(e.why)?.[1] : undefined;
    const fit = e.fit ?? (reading === undefined ? undefined : fitOf.get(reading));
    return { ...e, values, ...(fit === undefined ? {} : { fit }) };
  });
}
function factInThree(e: Loose, old: string): Loose {
  const path = pathInThree(old);
  const rows = rowsOf(path, e.value);
  if (!rows) return { ...e, path };
  const { value: _, ...rest } = e;
  return { ...rest, kind: "rows", path, rows };
}

/**
 * A set of version 2 by the addresses of version 3.
 *
 * @param set the set's description, of unknown shape
 * @returns the same, what is kept by name under its new one
 * @source house format, docs/job-format.md
 */
export function setInThree(set: unknown): unknown {
  if (!isLoose(set)) return set;
  const topics: Record<string, Record<string, Record<string, unknown>>> = {};
  const lift = (path: string, room: string, value: unknown): boolean => {
    const [topic, name, ...more] = path.split(".");
    if (more.length > 0) return false;
    topics[topic] ??= {};
    topics[topic][room] ??= {};
    topics[topic][room][name] = value;
    return true;
  };
  /** what a holder keeps by name, under the new names; what left it for a topic is lifted out */
  const kept = (holder: unknown, at: string): unknown => {
    if (!isLoose(holder)) return holder;
    const rooms: Record<string, Record<string, unknown>> = {};
    for (const room of ["values", "choices"]) {
      const old = holder[room];
      if (!isLoose(old)) continue;
      rooms[room] ??= {};
      for (const [name, was] of Object.entries(old)) {
        const [path, value] = valueInThree(`${at}.${name}`, was, set);
        const rows = rowsOf(path, value);
        const into = rows ? "lists" : room;
        const stays = path.startsWith(`${at}.`);
        if (stays) rooms[into] = { ...rooms[into], [path.slice(at.length + 1)]: rows ?? value };
        else lift(path, into, rows ?? value);
      }
    }
    return { ...holder, ...rooms };
  };
  const each = (list: unknown, at: string): unknown =>
    Array.isArray(list) ? list.map((x) => (isLoose(x) ? kept(x, `${at}.${String(x.id)}`) : x)) : list;
  const out = {
    ...set,
    supplies: kept(set.supplies, "supplies"),
    bands: each(set.bands, "bands"),
    stages: each(set.stages, "stages"),
    fittings: each(set.fittings, "fittings"),
  };
  const { line: today, ...others } = topics;
  const line = isLoose(set.line) && today ? { line: { ...set.line, ...today.values } } : {};
  return {
    ...out,
    ...line,
    ...(Object.keys(others).length > 0 ? { topics: { ...(isLoose(set.topics) ? set.topics : {}), ...others } } : {}),
  };
}

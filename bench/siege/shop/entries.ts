/** Entries of every kind that a bench makes, and every kind of work, drawn by property: with them the siege's writers write. */
import fc from "fast-check";
import { demoSet } from "../../../src/desk/demo";
import { type Entry, entrySchema } from "../../../src/job/document";
import { caseStates, faultActs, powerStates, readingKinds, readingStates, thermalStates } from "../../../src/job/format";
import { forms } from "../../../src/job/forms";
import { partKinds } from "../../../src/job/mending/kinds";
import { edgesOf, workKinds } from "../../../src/job/ripple";
import { steps } from "../../../src/job/steps";
import { some } from "../kit";

/** What an entry says, whoever makes it; the format's own definition reads it as it is drawn. */
interface Body<K extends Entry["kind"] = Entry["kind"]> {
  readonly kind: K;
  readonly reading?: object;
}

const is = <K extends string>(kind: K) => fc.constant(kind);
const pick = <T>(of: readonly T[]): fc.Arbitrary<T> => fc.constantFrom(...of);
const words = fc.string({ unit: "grapheme", maxLength: 60 });
const named = words.map((w) => `n${w}`);
const set = demoSet();
const place = pick(["set", "supplies", ...set.stages.map((s) => `stages.${s.id}`)]);
const figure = fc.double({ min: -1e6, max: 1e6, noNaN: true, noDefaultInfinity: true }).map((v) => v + 0);
const quantity = figure.map((value) => ({
  value,
  spread: { shape: "exact" as const },
  origin: "measured" as const,
  source: "invented",
}));
const reading = fc.record({
  id: fc.uuid(),
  as: pick(readingKinds),
  state: pick(readingStates),
  step: pick(steps.map((s) => s.id)),
  stage: pick(set.stages.map((s) => s.id)),
  instrument: words,
  thermal: pick(thermalStates),
  file: fc.record({ name: words, hash: is("") }),
  columns: fc.array(figure, { maxLength: 40 }).map((frequencyHz) => ({ frequencyHz })),
  figures: fc.array(fc.record({ name: words, text: words, quantity }), { maxLength: 4 }),
  warnings: fc.array(words, { maxLength: 3 }),
});
const estimate = fc.record({ id: fc.uuid(), values: fc.array(figure, { maxLength: 6 }), model: words }).map(({ values, ...e }) => ({
  ...e,
  values,
  names: values.map((_, i) => `p${i}`),
  logarithmic: values.map(() => false),
  covariance: values.map((_, i) => values.map((__, k) => (i === k ? 1 : 0))),
  fromReadings: [],
}));
const part = fc.record({ kind: pick(partKinds.map((k) => k.id)), words, dress: words });
/** By kind, so that the types ask for each of them; an attachment comes with its file, elsewhere. */
const bodies: { readonly [K in Exclude<Entry["kind"], "attachment">]: fc.Arbitrary<Body<K>> } = {
  work: pick(workKinds).chain((w) =>
    fc.record({
      kind: is("work"),
      work: fc.constant(w.id),
      subject: place,
      note: words,
      makes: fc.constant(edgesOf(w.id).map(({ target, makes, task = "", why }) => ({ target, makes, task, why }))),
      rests: fc.constant([]),
    }),
  ),
  done: fc.record({ kind: is("done"), step: pick(steps.map((s) => s.id)), note: words }),
  form: pick(forms.filter((f) => f.fields.length > 0)).chain((f) =>
    fc.record({ kind: is("form"), form: fc.constant(f.id), fields: fc.dictionary(pick(f.fields), words, { minKeys: 1, maxKeys: 5 }) }),
  ),
  values: fc.record({ kind: is("values"), values: quantity.map((q) => ({ "line.today": q })), why: words }),
  fact: fc.record({ kind: is("fact"), path: pick(["supplies.rectifierType", "place.region"]), value: words, why: words }),
  rows: fc.record({
    kind: is("rows"),
    path: is("drift.driftLog"),
    rows: fc.array(fc.record({ time: figure, frequency: figure }), { maxLength: 60 }),
    why: words,
  }),
  reading: fc.record({ kind: is("reading"), reading }),
  estimate: fc.record({ kind: is("estimate"), estimate, note: words }),
  instrument: fc.record({
    kind: is("instrument"),
    instrument: fc.record({
      id: named,
      kind: words,
      label: words,
      ranges: fc.array(words, { maxLength: 5 }),
      uncertainty: words,
      lastCheck: words,
      offset: words,
    }),
  }),
  chassis: fc.record({
    kind: is("chassis"),
    state: pick(["isolated", "live", "live-proved-dead", "unstated"] as const),
    evidence: quantity.map((ohms) => ({ ohms })),
    meter: words,
    how: words,
    transformer: words,
    confirmed: fc.boolean(),
  }),
  fault: fc.record({ kind: is("fault"), fault: named, does: pick(faultActs), place, words, rests: fc.constant([]) }),
  part: fc.record({ kind: is("part"), part: pick(partKinds.map((k) => k.id)), place, label: words, out: part, came: part }),
  sitting: fc.record({ kind: is("sitting"), initials: words, meter: words, method: words, thermal: pick(thermalStates) }),
  standing: fc.record({ kind: is("standing"), power: pick(powerStates), case: pick(caseStates), clipped: words, doing: words }),
  waiting: fc.record({ kind: is("waiting"), for: words, about: words }),
  described: fc.record({
    kind: is("described"),
    list: is("tubes"),
    member: named,
    as: fc.constantFrom(null, { ...set.tubes[0] }),
    why: words,
  }),
  correction: fc.record({ kind: is("correction"), supersedes: named, why: words }),
};
/** As many of work as of all the rest, so that each kind of it comes about as often as another kind of entry. */
const body: fc.Arbitrary<Body> = fc.oneof({ weight: 17, arbitrary: bodies.work }, ...Object.values<fc.Arbitrary<Body>>(bodies));
const drawnCount = 1500;
/** Entries of those drawn, one after another, the same ones in the same order every time; from one of them on. */
export function entriesFrom(first: number): (id: string, who: string, at: string) => Entry {
  const drawn = some(body, drawnCount);
  let next = first;
  return (id, who, at) => {
    const said = drawn[next++ % drawnCount];
    // no two readings of a job have one id
    const own = said.reading ? { ...said, reading: { ...said.reading, id: `r ${id}` } } : said;
    return entrySchema.parse({ ...own, id, at, who });
  };
}
/** What of an entry was drawn: its kind, and of work which. */
const drawnAs = (e: Entry): string => (e.kind === "work" ? `work ${e.work}` : e.kind);
/** How many kinds of entries and of work there are among some, of how many. */
export const sayKinds = (entries: readonly Entry[]): string =>
  `of ${new Set(entries.map(drawnAs)).size} of ${Object.keys(bodies).length - 1 + workKinds.length} kinds of entries and work`;

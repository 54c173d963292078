/** Damaged and hostile files and words through every reader: refused in a line, or read whole with every number finite. */
import fc from "fast-check";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { demoSet, demoSweepCsv, demoZeroBeatsCsv } from "../../src/desk/demo";
import { fillCard } from "../../src/desk/fill-card";
import type { ReadingKind } from "../../src/desk/read-in/asking";
import { readFileIn } from "../../src/desk/read-in/read-in";
import { errandsHere } from "../../src/faces/errands/errands-here";
import { admit } from "../../src/job/admit";
import type { JobDocument } from "../../src/job/document";
import { formatName, formatVersion, readingKinds } from "../../src/job/format";
import { viewOf } from "../../src/job/view";
import { readTouchstone } from "../../src/readings/touchstone";
import { writeArchive } from "../../src/store/archive";
import { dimensions } from "../../src/units/dimensions";
import { InputError, type Read } from "../../src/units/issue";
import { parseQuantity } from "../../src/units/parse";
import { nasty, notFinite, type Part, part, some, troubles } from "./kit";

const readMs = 2000;
/** a strip is fitted to a sweep beside its reading */
const fitMs = 15_000;
let n = 0;
const stamp = { at: "2026-02-01T00:00:00.000Z", who: "siege", newId: () => `i${++n}` };
const document: JobDocument = {
  format: formatName,
  version: formatVersion,
  ...{ id: "d", name: "Set", created: stamp.at, set: demoSet(), entries: [] },
};
const view = viewOf(document);
const text = (s: string): Uint8Array => new TextEncoder().encode(s);

/** A sound of a tenth of a second. */
function wave(bits: 16 | 32): Uint8Array {
  const samples = bits === 16 ? new Int16Array(800) : new Float32Array(800);
  for (let i = 0; i < 800; i++) samples[i] = Math.sin(i / 3) * (bits === 16 ? 9000 : 0.4);
  const out = new Uint8Array(44 + samples.byteLength);
  const d = new DataView(out.buffer);
  for (const [at, word] of Object.entries({ 0: "RIFF", 8: "WAVE", 12: "fmt ", 36: "data" })) out.set(text(word), Number(at));
  for (const [at, v] of Object.entries({ 4: out.length - 8, 16: 16, 24: 8000, 28: 1000 * bits, 40: samples.byteLength }))
    d.setUint32(Number(at), v, true);
  for (const [at, v] of Object.entries({ 20: bits === 16 ? 1 : 3, 22: 1, 32: bits / 8, 34: bits })) d.setUint16(Number(at), v, true);
  out.set(new Uint8Array(samples.buffer), 44);
  return out;
}
const touchstone = [
  "! c\n# MHz S MA R 50\n1 0.1 0 0.9 10 0.9 10 0.1 0\n2 0.1 0 0.9 10 0.9 10 0.1 0\n1 2.5 0.5 45 10\n",
  "[Version] 2.0\n# kHz S RI R 50\n[Number of Ports] 2\n[Two-Port Data Order] 12_21\n[Reference] 50 75\n[Matrix Format] Lower\n[Network Data]\n1 0 0 1 0 1 0\n2 0 0 1 0 1 0\n[End]\n",
  "# Hz Z RI R 75\n450000 1 2\n455000 3 4\n460000 1 2\n",
].map(text);
const tables = [
  ...[demoSweepCsv(), demoZeroBeatsCsv(), "kHz,dB\n450,-40\n451,-20\n452,-3\n453,0\n454,-3\n455,-20\n456,-40\n"],
  ...["f kHz;dB\n450,5;-40,1\n451;-20\n452;-3\n453;0\n454;-3\n", "plate,plate,grid\n1,2,3\n4,5,6\n", "minutes,Hz\n0,0\n5,100\n10,150\n"],
].map(text);
const charts = ["Tube,Pin,Electrode,Chart V,Measured V\nV1,3,plate,250,245\nV2,5,screen,100,98\n", "constructor,__proto__\n1,2\n"].map(
  text,
);

/** Bytes cut, put in and out of order; numbers made extreme. */
const damaged = (seeds: readonly Uint8Array[]): fc.Arbitrary<Uint8Array> => {
  const edit = fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    cut: fc.nat(8),
    put: fc.oneof(
      fc.uint8Array({ maxLength: 6 }),
      fc
        .constantFrom(
          "1e305",
          "-1e308",
          "1e-320",
          "NaN",
          ",",
          ";",
          "\t",
          '"',
          "\n",
          "[",
          "#",
          "\0",
          " ".repeat(900),
          "9".repeat(320),
          "1,2\n".repeat(500),
        )
        .map(text),
    ),
  });
  return fc.tuple(fc.constantFrom(...seeds), fc.array(edit, { minLength: 1, maxLength: 3 }), fc.nat(12)).map(([from, edits, keep]) => {
    let b = Buffer.from(from);
    for (const e of edits) {
      const at = Math.floor(e.at * b.length);
      b = Buffer.concat([b.subarray(0, at), e.put, b.subarray(at + e.cut)]);
    }
    return new Uint8Array(keep === 0 ? b.subarray(0, Math.floor(b.length / 2)) : b);
  });
};

const extremes = [0, -1, 1e308, -1e308, 5e-324, 1e30, -1e30, 1e-30, "", "NaN", null, [], {}, "x".repeat(3000), "__proto__", true];
/** Puts another value at one place of some data, chosen by a number from 0 to 1 at every level. */
function putSomewhere(data: unknown, where: readonly number[], value: unknown): unknown {
  if (typeof data !== "object" || data === null || where.length === 0) return value;
  const keys = Object.keys(data);
  if (keys.length === 0) return value;
  const key = keys[Math.floor(where[0] * keys.length)];
  const copy = (Array.isArray(data) ? [...data] : { ...data }) as Record<string, unknown>;
  copy[key] = putSomewhere(copy[key], where.slice(1), value);
  return copy;
}
/** A job's zips: damaged as bytes, and sound zips of damaged jobs. */
async function zips(): Promise<fc.Arbitrary<Uint8Array>> {
  const sound = await jobWithReadings();
  const parts = unzipSync(sound);
  const job = JSON.parse(strFromU8(parts["job.json"]));
  const where = fc.array(fc.double({ min: 0, max: 0.999, noNaN: true }), { minLength: 1, maxLength: 8 });
  const inside = fc.tuple(where, fc.oneof(fc.constantFrom(...extremes), fc.jsonValue())).map(([w, v]) => {
    const { "job.json": _, ...rest } = parts;
    return zipSync({ ...rest, "job.json": strToU8(JSON.stringify(putSomewhere(job, w, v))) }, { level: 0 });
  });
  return fc.oneof({ weight: 3, arbitrary: inside }, { weight: 1, arbitrary: damaged([sound]) });
}
async function jobWithReadings(): Promise<Uint8Array> {
  const read = (name: string, bytes: Uint8Array, as: ReadingKind) =>
    readFileIn(view, { name, bytes }, { as, state: "as-found", band: "80", withoutFit: true }, stamp);
  const got = (await Promise.all([read("s.csv", text(demoSweepCsv()), "sweep"), read("w.wav", wave(16), "table")])).flatMap((r) =>
    r.ok ? [r.value] : [],
  );
  const fact = { id: "f", at: stamp.at, who: "x", kind: "fact" as const, path: "line.kind", value: "AC", why: "" };
  return writeArchive(
    { ...document, entries: [...got.flatMap((g) => g.entries), fact] },
    got.map((g) => g.file),
  );
}

export const readers: Part = async (share) => {
  const t = troubles();
  let [slowestOf, count, accepted] = [0, 0, 0];
  /** Tries one: what it gives must be finite, or an issue; nothing else may come of it. */
  const attempt = async (what: string, example: string, run: () => Promise<unknown> | unknown, mostMs = readMs): Promise<unknown> => {
    count++;
    const started = performance.now();
    let value: unknown;
    try {
      value = await run();
      accepted++;
      const at = notFinite(value);
      if (at !== undefined) t.add(`${what}: taken though not finite`, `${at} of ${example}`);
    } catch (e) {
      if (!(e instanceof InputError) || e.issues.length === 0)
        t.add(`${what}: ${(e as Error).name} ${(e as Error).message.slice(0, 80)}`, example);
    }
    const ms = performance.now() - started;
    if (mostMs === readMs) slowestOf = Math.max(slowestOf, ms);
    if (ms > mostMs) t.add(`${what}: slow`, `${Math.round(ms)} ms, ${example}`);
    return value;
  };
  const value = <T>(r: Read<T>): T => {
    if (r.ok) return r.value;
    throw new InputError(r.issues);
  };
  const shown = (b: Uint8Array): string => JSON.stringify(Buffer.from(b).toString("latin1").slice(0, 200));
  const into =
    (name: string, as: ReadingKind, bytes: Uint8Array, withoutFit = true) =>
    async () => {
      const r = value(await readFileIn(view, { name, bytes }, { as, state: "as-found", band: "80", setPoint: "", withoutFit }, stamp));
      return value(admit(view, r.entries));
    };
  const kinds = readingKinds.filter((k) => k !== "recording");
  for (const [i, b] of some(damaged(touchstone), part(share, 6000)).entries()) {
    const name = `x.s${1 + (i % 3)}p`;
    await attempt("Touchstone", shown(b), () => value(readTouchstone(b, name)));
    if (i % 5 === 0) await attempt("Touchstone as a reading", shown(b), into(name, kinds[i % kinds.length], b));
  }
  for (const [i, b] of some(damaged(tables), part(share, 5000)).entries())
    await attempt(`table as ${kinds[i % kinds.length]}`, shown(b), into("x.csv", kinds[i % kinds.length], b));
  for (const b of some(damaged(tables), part(share, 200)))
    await attempt("strip fitted to a sweep", shown(b), into("x.csv", "if-sweep", b, false), fitMs);
  for (const b of some(damaged([wave(16), wave(32)]), part(share, 3000)))
    await attempt("recording", shown(b), into("x.wav", "recording", b));
  for (const b of some(damaged(charts), part(share, 2000)))
    await attempt("chart", shown(b), () =>
      value(admit(view, [value(fillCard(view, "voltage-chart", {}, { name: "c.csv", bytes: b }, stamp))])),
    );
  const names = Object.keys(dimensions) as (keyof typeof dimensions)[];
  for (const [i, s] of some(nasty, part(share, 6000)).entries())
    await attempt("quantity", JSON.stringify(s), () => value(parseQuantity(s, names[i % names.length])));
  const errands = errandsHere(stamp.newId);
  for (const b of some(await zips(), part(share, 4000)))
    await attempt("zip", shown(b), () => errands.run("unpack", { bytes: b, name: "x.zip", broughtIn: { at: stamp.at, by: "siege" } }));
  return {
    attack: "damaged and hostile files and words, every reader",
    count,
    said: `${accepted} read and every number in them finite, the others refused with the place named; slowest ${(slowestOf / 1000).toFixed(1)} s`,
    broke: t.lines(),
  };
};

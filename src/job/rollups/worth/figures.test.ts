import { describe, expect, it } from "vitest";
import { patterns } from "../../../set/patterns/kinds";
import { exact, type Quantity } from "../../../units/quantity";
import { formatVersion } from "../../format";
import { type JobView, viewOf } from "../../view";
import { removedBy } from "./choice";
import { figuresOf, sweepChoices, valueChoices } from "./figures";

const [, set] = patterns;
const jobOf = (of: typeof set): JobView =>
  viewOf({ format: "fettle-job", version: formatVersion, id: "j", name: "j", created: "2026-01-01T00:00:00Z", set: of, entries: [] });
const view = jobOf(set);
const known = figuresOf(view);
/** Every value of the strip known exactly. */
const settled = (x: unknown): unknown =>
  Array.isArray(x)
    ? x.map(settled)
    : x !== null && typeof x === "object"
      ? "spread" in x
        ? { ...(x as unknown as Quantity), spread: exact }
        : Object.fromEntries(Object.entries(x).map(([k, v]) => [k, settled(v)]))
      : x;

describe("what is not known of the hand-over's figures", () => {
  it("is there for a set that nobody has measured: width, centre and rejection of the IF, images, noise", () => {
    expect(new Set(known.map((k) => `${k.answer.sheet} ${k.step}`))).toEqual(new Set(["if-response 33b", "image 33c", "sensitivity 33a"]));
    expect(known.map((k) => k.of)).toEqual(expect.arrayContaining(["width at -6 dB", "middle of the pass band, off the IF"]));
  });
  it("is lessened by a measurement as two normal errors say: u^2/(u^2 + m^2), as textbooks have it", () => {
    const width = known.find((k) => k.of === "width at -6 dB")!;
    const { value, low, high } = width.figure;
    const [u, m] = [(high! - low!) / 3.92, 0.02 * value!];
    expect(width.share).toBeCloseTo(u ** 2 / (u ** 2 + m ** 2), 9);
  });
  it("counts a figure of every band as one", () => {
    const images = known.filter((k) => k.step === "33c");
    expect(images.length).toBe(set.bands.length);
    expect(images.reduce((s, k) => s + k.counts, 0)).toBeCloseTo(1, 9);
    for (const c of valueChoices(view, known)) expect(removedBy(c), c.id).toBeLessThanOrEqual(1);
  });
  it("is told of the strip by one sweep, which removes of each figure what measuring does; of a strip that is known there is none to make", () => {
    const [sweep] = sweepChoices(view, known);
    const own = known.filter((k) => k.answer.sheet === "if-response" && k.share >= 0.1);
    expect(own.length).toBeGreaterThanOrEqual(2);
    expect(removedBy(sweep)).toBeCloseTo(
      own.reduce((s, k) => s + k.share, 0),
      9,
    );
    const sure = jobOf({ ...set, strip: settled(set.strip) as typeof set.strip });
    expect(sweepChoices(sure, figuresOf(sure))).toEqual([]);
  });
});

import { describe, expect, it } from "vitest";
import { uniformStream } from "../../numerics/random";
import { type Piece, removedTogether, together } from "./together";

/** Every subset tried. */
function bruteForce(pieces: readonly Piece[], sharedMinutes: number, mostMinutes: number): number {
  let best = 0;
  for (let set = 1; set < 1 << pieces.length; set++) {
    const own = pieces.filter((_, i) => (set >> i) & 1);
    const minutes = own.reduce((s, p) => s + p.minutes, sharedMinutes);
    if (minutes <= mostMinutes) best = Math.max(best, (60 * removedTogether(own)) / Math.max(1, minutes));
  }
  return best;
}
const invented = (seed: number) => {
  const stream = uniformStream(seed, "together", 80);
  let at = 0;
  const random = (): number => stream[at++];
  const pieces = Array.from(
    { length: 2 + Math.floor(7 * random()) },
    (_, i): Piece => ({
      id: String(i),
      minutes: 2 + 28 * random(),
      removes: Array.from({ length: 1 + Math.floor(2 * random()) }, () => ({ of: `u${Math.floor(3 * random())}`, share: random() ** 2 })),
    }),
  );
  return { pieces, shared: 30 * random(), most: random() < 0.5 ? Number.POSITIVE_INFINITY : 20 + 60 * random() };
};

describe("several at one opening, against every subset of two to eight pieces", () => {
  it("is the best subset nearly always, and loses little where it is not", () => {
    let [best, worst, count] = [0, 0, 0];
    for (let seed = 1; seed <= 500; seed++) {
      const { pieces, shared, most } = invented(seed);
      const all = bruteForce(pieces, shared, most);
      const batch = together(pieces, shared, most);
      expect(batch === undefined).toBe(all === 0);
      if (!batch || all === 0) continue;
      expect(batch.minutes).toBeLessThanOrEqual(most);
      expect(batch.anHour).toBeLessThanOrEqual(all + 1e-9);
      const loss = 1 - batch.anHour / all;
      count++;
      if (loss < 1e-9) best++;
      worst = Math.max(worst, loss);
    }
    expect(count).toBeGreaterThan(400);
    expect(best / count).toBeGreaterThan(0.97);
    expect(worst).toBeLessThan(0.08);
  });
  it("takes more along the longer the way there is, and one alone where there is none", () => {
    const pieces = [10, 12, 14].map((minutes, i): Piece => ({ id: String(i), minutes, removes: [{ of: `u${i}`, share: 0.5 }] }));
    expect(together(pieces, 0)?.ids).toEqual(["0"]);
    expect(together(pieces, 60)?.ids.length).toBe(3);
    expect(together(pieces, 60, 75)?.ids).toEqual(["0"]);
    expect(together(pieces, 60, 5)).toBeUndefined();
  });
  it("counts one uncertainty once, however many remove a part of it", () => {
    const half: Piece = { id: "a", minutes: 5, removes: [{ of: "u", share: 0.5 }] };
    expect(removedTogether([half])).toBe(0.5);
    expect(removedTogether([half, { ...half, id: "b" }])).toBe(0.75);
  });
});

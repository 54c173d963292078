import { expect, it } from "vitest";
import { onceFor } from "./once";

it("works out each thing once, nothing among what it gives, and tells like things apart", () => {
  const asked: object[] = [];
  const sizeOf = onceFor((of: readonly number[]) => {
    asked.push(of);
    return of.length > 1 ? of.length : undefined;
  });
  const [one, same, two] = [[1], [1], [1, 2]];
  expect([one, one, same, two, two].map(sizeOf)).toEqual([undefined, undefined, undefined, 2, 2]);
  expect(asked).toEqual([one, same, two]);
});
it("tells apart what else it hangs on, by its key", () => {
  let asked = 0;
  const times = onceFor(
    (of: readonly number[], by: { readonly factor: number }) => {
      asked++;
      return of[0] * by.factor;
    },
    (by) => by.factor,
  );
  const [a, b] = [[2], [3]];
  expect([times(a, { factor: 2 }), times(a, { factor: 2 }), times(a, { factor: 5 }), times(b, { factor: 2 })]).toEqual([4, 4, 10, 6]);
  expect(asked).toBe(3);
});

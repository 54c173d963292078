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

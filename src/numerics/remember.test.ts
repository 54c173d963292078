import { expect, it } from "vitest";
import { remembering } from "./remember";

it("works out once what it is asked again, an undefined result too, and forgets the oldest first", () => {
  const asked: number[] = [];
  const half = remembering(
    (n: number) => `${n}`,
    (n) => {
      asked.push(n);
      return n > 0 ? n / 2 : undefined;
    },
    2,
  );
  expect([half(4), half(4), half(-1), half(-1)]).toEqual([2, 2, undefined, undefined]);
  expect(asked).toEqual([4, -1]);
  half(6);
  half(4);
  expect(asked).toEqual([4, -1, 6, 4]);
});

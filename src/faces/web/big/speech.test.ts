import { expect, it } from "vitest";
import { wordsOf } from "./speech";

/** As the DOM has it: attributes are read through the prototype, and counted there (Web IDL, 3.7.6: enumerable). */
const attribute = (value: unknown) => ({ get: () => value, enumerable: true });

it("takes what was heard from an alternative of a recogniser, whatever else it tells", () => {
  const kind = Object.create(null, { confidence: attribute(0.91), heard: attribute("one hundred and four") });
  expect(wordsOf(Object.create(kind))).toBe("one hundred and four");
  expect(wordsOf(Object.create(Object.create(null, { confidence: attribute(0.1) })))).toBe("");
});

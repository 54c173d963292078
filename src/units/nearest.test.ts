import { describe, expect, it } from "vitest";
import { sheets } from "../sheets/index";
import { closest, oneOf } from "./nearest";

describe("a name that nobody knows", () => {
  const ids = sheets.map((s) => s.id);
  it("is answered with the nearest few where there are many", () => {
    expect(closest("q-multipler", ids, 1)).toEqual(["q-multiplier"]);
    expect(oneOf("q-multipler", ids)).toMatch(new RegExp(`^one of ${ids.length}, such as q-multiplier or \\S+ or \\S+$`));
  });
  it("is answered with all where they are few", () => expect(oneOf("x", ["a", "b"])).toBe("one of a, b"));
});

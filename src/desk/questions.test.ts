import { describe, expect, it } from "vitest";
import { sheetById } from "../sheets/index";
import { heardIn, heardQuestions } from "./questions";

describe("what of an answer is heard", () => {
  it.each(heardQuestions)("of %s is curves that it has, turned by inputs that it has", (id) => {
    const sheet = sheetById(id)!;
    const { asItIs, asItWouldBe, knobs } = heardIn(id)!;
    expect(Object.keys(sheet.curves)).toEqual(expect.arrayContaining([asItIs, ...asItWouldBe]));
    const inputs = Object.keys(sheet.inputs);
    for (const [path] of knobs)
      expect(
        inputs.some((i) => path === i || path.startsWith(`${i}.`)),
        path,
      ).toBe(true);
  });
});

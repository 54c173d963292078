import { expect, it } from "vitest";
import { closed, lowerFirst, upperFirst } from "./sentence";

it("begins a sentence, letters beyond ASCII too, and leaves nothing as nothing", () => {
  expect(["mixer plate", "überlagerer", "6K7", ""].map(upperFirst)).toEqual(["Mixer plate", "Überlagerer", "6K7", ""]);
  expect(["Mixer Plate", "IF"].map(lowerFirst)).toEqual(["mixer Plate", "iF"]);
});
it("ends a sentence once", () => {
  expect(["no hum", "no hum.", "hum?", "hum!", ""].map(closed)).toEqual(["no hum.", "no hum.", "hum?", "hum!", ""]);
});

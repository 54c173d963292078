import { expect, it } from "vitest";
import { tellMark } from "./tell-mark";

/** Source: IEC 60062 (from memory), army and JAN codes (read where said). */
it.each([
  ["mica-dots", "red, green, black", "25 pF", "±20 %, 500 V", "three dots, read in an army text"],
  ["mica-dots", "white brown red red black black", "1.2 nF", "mica", "six dots, first white, read"],
  ["mica-dots", "black, green, brown, black, yellow, red", "51 pF", "mica", "JAN dots, read"],
  ["code", "470JN", "470 pF", "±5 %, -750 ppm/K", "read"],
  ["code", "4K7J", "4.7 kΩ", "±5 %", "IEC 60062, from memory"],
  ["code", "4n7K", "4.7 nF", "±10 %", "IEC 60062, from memory"],
  ["code", "103M", "10 nF", "±20 %", "IEC 60062, from memory"],
  ["code", "203", "20 nF", "not said", "EIA three figures, from memory"],
  ["code", "103K 1KV", "10 nF", "±10 %", "EIA three figures, from memory"],
  ["code", "0.02 400", "20 nF", "not said", "usual of the era, from memory"],
  ["bands", "yellow violet orange silver", "47 kΩ", "±10 %", "IEC 60062, from memory"],
  ["bands", "brown black gold", "1 Ω", "±20 %", "IEC 60062, from memory"],
  ["bands", "brown black black red brown", "10 kΩ", "±1 %", "IEC 60062, from memory"],
  ["body-end-dot", "red green yellow", "250 kΩ", "±20 %", "practice of the 1930s, from memory"],
  ["ceramic-dots", "violet, brown, black, brown, green", "100 pF", "-750 ppm/K", "a standard's summary table for the coefficient, read"],
])("%s %s is %s, %s (%s)", (kind, said, value, tolerance) => {
  const r = tellMark(kind, said);
  expect(r.ok ? r.value.value : r.issues[0]).toBe(value);
  expect(r.ok ? r.value.tolerance : "").toContain(tolerance);
});
it("tells the other way to read a six-dot mica, and a code of two zeros", () => {
  const white = tellMark("mica-dots", "white brown red red black black");
  expect(white.ok && white.value.also).toContain("91.2 nF");
  const round = tellMark("code", "470J");
  expect(round.ok && round.value.value).toBe("47 pF");
  expect(round.ok && round.value.also).toContain("470 pF");
});
it.each([
  ["bands", "red green", "bands: wrong-number"],
  ["bands", "red pink brown", "band 2: not-a-digit"],
  ["mica-dots", "red green", "dots: wrong-number"],
  ["code", "hello", "code: not-a-code"],
  ["other", "red", "kind: no-kind"],
])("refuses %s %s at %s", (kind, said, where) => {
  const r = tellMark(kind, said);
  expect(r.ok ? "" : `${r.issues[0].path}: ${r.issues[0].code}`).toBe(where);
});

import { expect, it } from "vitest";
import { readZeroBeats } from "./zero-beats";

const read = (text: string, unit?: string) => readZeroBeats(new TextEncoder().encode(text), "beats.csv", unit);
const code = (text: string) => {
  const r = read(text);
  return r.ok ? "" : `${r.issues[0].path}: ${r.issues[0].code}`;
};
it("reads zero beats under headings in any order, and without headings in theirs", () => {
  const want = { reading: [5, 14.2], frequencyHz: [3.5e6, 3.55e6], approach: [1, -1] };
  for (const text of ["reading,kHz,approach\n5,3500,up\n14.2,3550,down\n", "approach;frequency MHz;scale\nup;3.5;5\ndown;3.55;14.2\n"]) {
    const r = read(text);
    expect(r.ok && r.value).toEqual(want);
  }
  const bare = read("5 3500 up\n14.2 3550 down\n", "kHz");
  expect(bare.ok && bare.value).toEqual(want);
  const none = read("reading,kHz\n5,3500\n14.2,3550\n");
  expect(none.ok && none.value.approach).toEqual([0, 0]);
});
it.each([
  ["5,3500,up\n14,3550,up\n", "beats.csv heading: no-unit"],
  ["reading,kHz,approach\n5,3500,up\n14,3550,2\n", "beats.csv line 3: not-a-side"],
  ["reading,kHz\n5,3500\n14,x\n", "beats.csv line 3: not-a-number"],
  ["", "beats.csv: empty"],
])("refuses %j where it is wrong", (text, said) => expect(code(text)).toBe(said));

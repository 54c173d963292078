import { expect, it } from "vitest";
import { holders, quantityKeptAt } from "../ask/kept-names";
import { keptPath } from "../ask/resolve";
import { sheets } from "./index";

interface Kept {
  readonly sheet: string;
  readonly is: string;
  readonly meaning: string;
}
/** Everything that any sheet keeps, by address; the subject's own name stands open. */
const kept = new Map<string, Kept[]>();
const put = (address: string, k: Kept): void => void kept.set(address, [...(kept.get(address) ?? []), k]);
for (const s of sheets)
  for (const [name, input] of Object.entries(s.inputs)) {
    if (input.kind === "model" || (input.kind === "table" && !input.kept)) continue;
    const at = s.subject === "set" ? "" : `${holders[s.subject]}${s.fitting ?? "*"}`;
    const is =
      input.kind === "quantity"
        ? input.dimension
        : input.kind === "choice"
          ? input.options.join(" or ")
          : Object.keys(input.columns).join(", ");
    put(keptPath(s, at, name), { sheet: s.id, is, meaning: input.meaning });
    if (input.kind === "quantity")
      for (const old of input.formerly ?? [])
        put(`${s.subject === "set" ? "supplies" : at}.${old}`, { sheet: s.id, is: input.dimension, meaning: input.meaning });
  }

it("holds one thing of one dimension at each address, today's and those of older jobs", () => {
  for (const [address, all] of kept)
    expect([...new Set(all.map((k) => k.is))], `${address}: ${all.map((k) => `${k.sheet} keeps ${k.is}`).join(", ")}`).toHaveLength(1);
});
/** Addresses that several sheets speak of in words of their own: looked at, one thing each. */
const oneThing = [
  "line.highRatio",
  "supplies.secondaryVoltage",
  "supplies.bleeder",
  "audio.low",
  "audio.high",
  "fittings.marker-generator.spacing",
  "bands.*.low",
  "bands.*.high",
  "bands.*.signalQ",
];
it("means one thing at each address: where two sheets word it unlike each other somebody has looked", () => {
  const unlike = [...kept].filter(([, all]) => new Set(all.map((k) => k.meaning)).size > 1).map(([address]) => address);
  expect(unlike.filter((a) => !oneThing.includes(a))).toEqual([]);
});
it("takes a name only at a subject of the sheet that keeps it", () => {
  expect(quantityKeptAt(sheets, "supplies.sourceResistance")?.input).toMatchObject({
    min: 0,
    meaning: expect.stringContaining("stated for"),
  });
  expect(quantityKeptAt(sheets, "fittings.markers.sourceResistance")?.input.meaning).toBe("source resistance of the generator");
  expect(quantityKeptAt(sheets, "tubes.V1.sourceResistance")).toBeUndefined();
});

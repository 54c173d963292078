import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOfSet, subjectsOf } from "../../job/view";
import { emptyBench } from "../../set/bench";
import { setFromOutline } from "../../set/outline";
import { orThrow } from "../../units/issue";
import { image } from "./sheet";
import theory from "./theory.md";

const ask = (overrides: Record<string, string>) => orThrow(answer(image, emptyBench, { draws: 100, overrides }));

it("tells the oscillator's side by where the weaker place lies: its own mark is the louder one either way", () => {
  // meant above, but running IF below its mark: the signal comes in where the oscillator is IF above it, two IF up the dial
  const f = ask({ secondPlace: "two IF higher" }).findings.find((x) => x.id === "image-wrong-side")!;
  expect(f).toMatchObject({ severity: "act", state: "open-live" });
  expect(f.do).toContain("less capacitance");
  expect(ask({ secondPlace: "two IF lower" }).findings.map((x) => x.id)).not.toContain("image-wrong-side");
  expect(ask({ secondPlace: "two IF lower", oscillator: "below" }).findings.find((x) => x.id === "image-wrong-side")!.do).toContain("more");
});
it("louder at the second place means the signal circuits are on the image: the oscillator is left alone", () => {
  expect(ask({ secondPlace: "louder there than on its mark" }).findings.find((x) => x.id === "image-circuits-on-image")!.do).toMatch(
    /^Leave the oscillator/,
  );
  expect(ask({ readings: "3.75 MHz, image, -4 dB" }).findings.find((x) => x.id === "image-reading-1-negative")!.do).toMatch(
    /^Leave the oscillator/,
  );
});
it("knows no second place under two IF, and does not fall over low marks of an oscillator below", () => {
  expect(ask({ signal: "600 kHz" }).results.heardAt.why).toContain("no second place");
  expect(ask({ signal: "500 kHz", oscillator: "below" }).results.imageAt.value).toBe(410e3);
  // half IF is of the circuits alone, whatever goes round them
  const half = (strays: string) => ask({ signal: "1.2 MHz", oscillator: "below", strays }).results.halfIfRejection.value!;
  expect(half("60 dB")).toBe(half("90 dB"));
});
it("judges readings against what the circuits give, and a negative one as the wrong side", () => {
  const ids = (readings: string) => ask({ readings, signalQ: "60 ± 1", strays: "90 ± 1" }).findings.map((f) => f.id);
  // two circuits of Q 60 at 3.75 MHz: 2 x 28.4 dB
  expect(ids("3.75 MHz, image, 56 dB")).toContain("image-reading-1-as-built");
  expect(ids("3.75 MHz, image, 46 dB")).toContain("image-reading-1-short-yes");
  expect(ids("3.75 MHz, image, 35 dB")).toContain("image-reading-1-one-fewer");
  expect(ids("3.75 MHz, image, -4 dB")).toContain("image-reading-1-negative");
});
it("counts one circuit at the antenna and one behind each RF stage that the set is described with", () => {
  for (const [rfStages, circuits] of [
    ["0", 1],
    ["1", 2],
    ["2", 3],
  ] as const) {
    const set = orThrow(setFromOutline({ rfStages, bands: "7 - 7.3 MHz spread", chassis: "isolated" }));
    const a = orThrow(answer(image, benchOfSet(set, subjectsOf(set, "band")[0]), { draws: 20 }));
    expect(a.quantities.find((q) => q.path === "circuits")!.quantity.value).toBe(circuits);
  }
});
it("draws and lists over the band that was asked, and no further", () => {
  const a = ask({ low: "7 MHz", high: "7.3 MHz", signal: "7.3 MHz" });
  const { x } = a.curves.image;
  expect([x[0], x[x.length - 1]]).toEqual([7e6, expect.closeTo(7.3e6, 3)]);
  const rows = a.tables[0].rows;
  expect([rows[0][0], rows[rows.length - 1][0]]).toEqual([7e6, 7.3e6]);
  expect(a.results.imageAtHigh.value).toBeCloseTo(a.results.imageRejection.value!, 6);
  expect(a.results.imageAtLow.value!).toBeGreaterThan(a.results.imageAtHigh.value!);
});
it("knows one circuit fewer by what one of them gives", () => {
  // three circuits of Q 60 at 7.3 MHz: 23 dB each
  const at = (rejection: string) =>
    ask({
      circuits: "3",
      signal: "7.3 MHz",
      low: "7 MHz",
      high: "7.3 MHz",
      signalQ: "60 ± 6",
      strays: "100 ± 1",
      readings: `7.3 MHz, image, ${rejection}`,
    }).findings;
  const fewer = at("46 dB").find((f) => f.id === "image-reading-1-one-fewer")!;
  expect(fewer.says).toMatch(/23 dB less, about what one circuit of the 3 gives/);
  expect(fewer.state).toBe("open-live");
  // a third of that is a loss of Q, two of them is more than one circuit
  for (const other of ["61 dB", "23 dB"]) expect(at(other).map((f) => f.id)).not.toContain("image-reading-1-one-fewer");
});
it.each([
  [{ low: "5 MHz", high: "4 MHz" }, "high", "crossed"],
  [{ signal: "455 kHz" }, "signal", "on-the-if"],
  [{ signal: "400 kHz", oscillator: "below" }, "oscillator", "through-nothing"],
  [{ signal: "910 kHz", oscillator: "below" }, "oscillator", "oscillator-on-the-if"],
  [{ signal: "0 MHz" }, "signal", "not-positive"],
  [{ readings: "7 MHz, image, 500 dB" }, "readings row 1", "out-of-range"],
])("refuses %j, with the reason", (overrides, path, code) => {
  const r = answer(image, emptyBench, { draws: 5, overrides: overrides as never });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| (\d+ MHz)\s+\| ([\d.]+) MHz\s+\| ([\d.]+) dB/g)];
  expect(rows).toHaveLength(2);
  for (const [, signal, at, db] of rows) {
    const { imageAt, imageRejection } = ask({ signal, circuits: "1", signalQ: "100", strays: "140 dB" }).results;
    expect(imageAt.value! / 1e6).toBeCloseTo(Number(at), 2);
    expect(imageRejection.value).toBeCloseTo(Number(db), 1);
  }
});

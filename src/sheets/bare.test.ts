/** A value of which nobody said a tolerance is never taken for exact, in any input of any sheet, unless it is exact by nature: each of those is named here. */
import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import { resolveInputs } from "../ask/resolve";
import { sayFigure } from "../ask/say";
import { benchOfSet, subjectsOf } from "../job/view";
import { addressed } from "../set/addresses";
import { emptyBench } from "../set/bench";
import { patternById } from "../set/patterns/kinds";
import { canLeaves } from "../set/strip";
import { bareOf, lastDigitOf, unmarkedPart } from "../units/bare";
import type { Dimension } from "../units/dimensions";
import { orThrow } from "../units/issue";
import { printExact } from "../units/print";
import { standardUncertainty } from "../units/quantity";
import { asRead } from "./as-read.testdata";
import { sheetById, sheets } from "./index";

/** What is exact as it is typed, by its address; of what no job stores, by `question:input`. */
const exactByNature = new Set([
  "audio.high",
  "audio.low",
  "bands.*.audioHigh",
  "bands.*.backlash",
  "bands.*.circuits",
  "bands.*.coilDoubt",
  "bands.*.confidence",
  "bands.*.driftDoubt",
  "bands.*.gangDoubt",
  "bands.*.high",
  "bands.*.highEdge",
  "bands.*.intermediate",
  "bands.*.keyedWidth",
  "bands.*.low",
  "bands.*.lowEdge",
  "bands.*.markReading",
  "bands.*.padderDoubt",
  "bands.*.peakDoubt",
  "bands.*.readingNoiseDivisions",
  "bands.*.readingNoiseShare",
  "bands.*.scaleHigh",
  "bands.*.scaleLow",
  "bands.*.signal",
  "bands.*.stationTolerance",
  "bands.*.tolerance",
  "bands.*.trimmerDoubt",
  "bands.*.where",
  "bands.*.zeroBeat",
  "capacitors.formingCurrent",
  "chart.chartLine",
  "chart.partTolerance",
  "chart.supplyTolerance",
  "chart.tubeTolerance",
  "coil.bandwidth",
  "coil.frequency",
  "coil.turns",
  "drift.minuteLimit",
  "drift.warmUp",
  "fittings.*.anchor",
  "fittings.*.audioFloor",
  "fittings.*.counted",
  "fittings.*.crystal",
  "fittings.*.crystalStep",
  "fittings.*.crystalWanted",
  "fittings.*.cwPitch",
  "fittings.*.dialFrequency",
  "fittings.*.highestBand",
  "fittings.*.inputCircuits",
  "fittings.*.intermediate",
  "fittings.*.leakResistance",
  "fittings.*.lineChange",
  "fittings.*.loudest",
  "fittings.*.lowestBand",
  "fittings.*.order",
  "fittings.*.ratingMargin",
  "fittings.*.reactanceShare",
  "fittings.*.regeneration",
  "fittings.*.soundResistance",
  "fittings.*.spacing",
  "fittings.*.stationFrequency",
  "fittings.*.supplyVolts",
  "fittings.*.target",
  "fittings.*.trapRatio",
  "fittings.*.wanted",
  "fittings.*.wantedHigh",
  "fittings.*.wantedLow",
  "fittings.*.wantedOverNoise",
  "fittings.markers.markerDoubt",
  "fittings.markers.spacing",
  "gain.readingUnknown",
  "gain.stageLimit",
  "line.frequency",
  "line.voltage",
  "sMeter.needleRead",
  "sMeter.unitWanted",
  "sMeter.wantedS9",
  "sensitivity.listenAt",
  "sensitivity.ratioDb",
  "stages.*.beforeVolts",
  "stages.*.cathodeResistor",
  "stages.*.cwPitch",
  "stages.*.decouplingFeed",
  "stages.*.gridResistor",
  "stages.*.plateFeed",
  "stages.*.pointGrid",
  "stages.*.pointPlate",
  "stages.*.pointPlateCurrent",
  "stages.*.pointScreen",
  "stages.*.pointScreenCurrent",
  "stages.*.resistorTolerance",
  "stages.*.returnVolts",
  "stages.*.screenFeed",
  "stages.*.screenPart",
  "stages.*.supply",
  "stages.*.supplySpread",
  "stages.*.transconductance",
  "stages.*.tubeCurrent",
  "stages.*.tubeMu",
  "stages.*.tubeSpread",
  "supplies.bulbRated",
  "supplies.capacitorRating",
  "supplies.directRating",
  "supplies.heaterRated",
  "supplies.heaterRating",
  "supplies.intermediate",
  "supplies.rectifierCurrent",
]);

const bareText = (value: number, dimension: Dimension): string => printExact(Number((value === 0 ? 7.3 : value).toPrecision(3)), dimension);
/** What an input is called in the list above. */
const nameHere = (sheet: string, input: string, at: string | undefined): string => at ?? `${sheet}:${input}`;
const withBare = sheets.flatMap((s) =>
  Object.entries(s.inputs).flatMap(([n, i]) => (i.kind === "quantity" && i.dimension !== "sReading" ? [[s, n, i] as const] : [])),
);

describe("a bare value", () => {
  it("has a doubt in every input of every sheet that is not exact by nature, and says where that comes from", () => {
    for (const [s, name, input] of withBare) {
      const address = nameHere(s.id, name, input.at);
      const low = input.min ?? (input.positive || input.max === undefined ? 0 : input.max - 10);
      const value = input.assumed?.value || low + 0.37 * ((input.max ?? low + 2) - low);
      const r = resolveInputs(s, emptyBench, { ...asRead(s), [name]: bareText(value, input.dimension) });
      if (!r.ok) throw new Error(`${address}: ${JSON.stringify(r.issues)}`);
      const q = r.value.quantities.find((x) => x.path === name)!.quantity;
      const doubt = standardUncertainty(q.spread);
      if (q.joint !== undefined) continue;
      expect(doubt > 0, `${s.id} ${name} (${address}) typed bare`).toBe(!exactByNature.has(address));
      if (doubt > 0) expect(q.source, address).toMatch(/no (tolerance|doubt) said: /);
    }
  });
  it("has one in every leaf of the strip but the IF that the leaves are counted from", () => {
    const set = patternById("nine-tube-bandspread")!;
    const s = sheetById("if-response")!;
    for (const [leaf, of] of Object.entries(canLeaves)) {
      const path = `strip.can1.${leaf}`;
      const r = orThrow(resolveInputs(s, benchOfSet(set, subjectsOf(set, s.subject)[0] ?? ""), { [path]: bareText(0, of.dimension) }));
      expect(standardUncertainty(r.quantities.find((q) => q.path === path)!.quantity.spread), path).toBeGreaterThan(0);
    }
  });
  it("is what nothing assumed by the house is: each that is usual states its doubt, or is exact by nature, or nothing at all", () => {
    for (const [s, name, { at, assumed }] of withBare)
      if (assumed && assumed.value !== 0 && standardUncertainty(assumed.spread) === 0)
        expect([...exactByNature], "give its usual value half a tolerance above 0; or declare it exactly(...) and name it above").toContain(
          nameHere(s.id, name, at),
        );
  });
  it("is exact nowhere else than is said here", () => {
    const declared = addressed.flatMap((a) => (a.kind === "quantity" && bareOf(a.dimension, a.bare) === "exact" ? [a.address] : []));
    const tried = withBare.flatMap(([s, name, i]) =>
      i.at === undefined && bareOf(i.dimension, i.bare) === "exact" ? [nameHere(s.id, name, i.at)] : [],
    );
    expect([...new Set([...declared, ...tried])].sort(), "name each that is declared exactly(...) above, and no other").toEqual(
      [...exactByNature].sort(),
    );
  });
  it("of a part is that of a part without a tolerance band, so that a touch current is not told to four figures", () => {
    const a = orThrow(
      answer(sheetById("safety")!, emptyBench, { draws: 400, overrides: { ...asRead(sheetById("safety")!), bypass: "10 nF" } }),
    );
    const q = a.quantities.find((x) => x.path === "bypass")!.quantity;
    expect(q.spread).toEqual({ shape: "rectangular", half: unmarkedPart * 10e-9 });
    for (const f of Object.values(a.results))
      if (f.dimension === "current" && f.value !== null && f.value !== 0) expect(sayFigure(f, true)).not.toMatch(/\d\.\d{3} mA|\d{3,}\.\d/);
  });
  it("is exact where a person says so", () => {
    const s = sheetById("safety")!;
    const r = orThrow(resolveInputs(s, emptyBench, { ...asRead(s), bypass: "10 nF ±0" }));
    expect(standardUncertainty(r.quantities.find((x) => x.path === "bypass")!.quantity.spread)).toBe(0);
  });
});

describe("the last digit of what was typed", () => {
  it.each([
    ["121.4 V", "voltage", 0.1],
    ["0.50 mA", "current", 1e-5],
    ["4k7", "resistance", 100],
    ["500,000", "resistance", 1],
    ["1.5 Mc", "frequency", 1e5],
    ["455 kHz ±2 kHz", "frequency", 1e3],
    [".01 mfd", "capacitance", 1e-8],
    ["0 V", "voltage", 0],
    ["0.00 mA", "current", 1e-5],
    ["-3.2 V", "voltage", 0.1],
    ["12", "ratio", 1],
  ] as const)("of %j, a %s, is %d", (text, dimension, digit) => {
    expect(lastDigitOf(text, dimension)).toBeCloseTo(digit, 18);
  });
});

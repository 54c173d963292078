import { sheet } from "../../ask/contract";
import type { Table } from "../../ask/drawings";
import type { Finding } from "../../ask/findings";
import { printExact } from "../../units/print";
import { exact } from "../../units/quantity";
import { intermediateInput, oscillatorInput, scaleUnitHz } from "../inputs/dial";
import { mhz } from "../inputs/dial-figures";
import { bestSetPoint, leverages, type SetPointInputs } from "./solve";
import theory from "./theory.md";

const none: Finding["hazards"] = ["none"];
const inputs = (best: unknown): SetPointInputs => best as SetPointInputs;

export const setPoints = sheet({
  id: "set-points",
  version: 3,
  title: "The set-point of the main dial",
  question: "Where must the main dial be set to make the bandspread scale true?",
  subject: "band",
  joins: false,
  works: "panel",
  steps: ["26", "16"],
  inputs: {
    marks: {
      kind: "table",
      columns: {
        says: { dimension: "frequency", meaning: "what the bandspread scale says" },
        is: { dimension: "frequency", meaning: "marker in zero beat at the mark" },
      },
      meaning: "marks of the bandspread scale, and where the set is on each",
      howMeasured: "with the main dial on its set-point, turn the bandspread dial to zero beat on each marker and read its scale",
      from: (bench) => {
        const points = bench.points(bench.at);
        const unit = scaleUnitHz(points);
        return unit === undefined ? undefined : points.map((p) => ({ says: p.reading * unit, is: p.frequencyHz }));
      },
      assumed: {
        rows: [3.5, 3.6, 3.7, 3.8, 3.9, 4].map((f, i) => ({ says: f * 1e6 - [3000, 3300, 3500, 3900, 4100, 4600][i], is: f * 1e6 })),
        source: "an invented bandspread scale",
      },
      mostRows: 200,
      kept: true,
    },
    oscillator: oscillatorInput,
    intermediate: intermediateInput,
    markReading: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "standard deviation of reading a mark",
      howMeasured: "read the same marker ten times over",
      assumed: { value: 500, spread: exact, source: "a tenth of a 5 kHz division, common practice, no source" },
    },
    tolerance: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "how far off a mark may be and still be called true",
      howMeasured: "chosen",
      assumed: { value: 2000, spread: exact, source: "2 to 5 kHz, common practice, no source" },
    },
  },
  observed: ["marks"],
  first: ["tolerance", "markReading"],
  results: {
    shift: { dimension: "frequency", meaning: "move of the main dial, at the lowest mark (up: positive)" },
    shiftHigh: { dimension: "frequency", meaning: "what the move of the main dial does at the highest mark" },
    worstNow: { dimension: "frequency", meaning: "worst mark as it stands: scale less truth" },
    worstLeft: { dimension: "frequency", meaning: "worst mark after the move" },
    runLeft: { dimension: "frequency", meaning: "how much the remaining error runs along the scale" },
    overTolerance: { dimension: "frequency", meaning: "worst mark after the move, over the error allowed (negative: within it)" },
  },
  key: ["shift", "worstLeft", "worstNow"],
  curves: {
    now: { x: "frequency", y: "frequency", meaning: "scale less truth as it stands" },
    after: { x: "frequency", y: "frequency", meaning: "scale less truth after the move" },
  },
  prepare: (best, _points, chance) => {
    const x = inputs(best);
    const order = x.marks.map((_, i) => i).sort((a, b) => x.marks[a].says - x.marks[b].says);
    const axis = Float64Array.from(order, (i) => x.marks[i].says);
    const blank = { axes: { now: axis, after: axis }, solve: () => ({}) as never };
    if (new Set(x.marks.map((m) => m.is)).size < 2)
      return {
        ...blank,
        issues: [
          { path: "marks", code: "too-few", read: `${x.marks.length} marks`, expected: "at least two different markers along the scale" },
        ],
      };
    const far = x.marks.findIndex((m) => Math.abs(m.says / m.is - 1) > 0.1);
    if (far >= 0)
      return {
        ...blank,
        issues: [
          {
            path: `marks row ${far + 1}`,
            code: "not-one-mark",
            read: `${printExact(x.marks[far].says, "frequency")} and ${printExact(x.marks[far].is, "frequency")}`,
            expected: "a mark and the marker near it",
          },
        ],
      };
    const streams = x.marks.map((_, i) => chance.stream(`mark ${i}`));
    const g = leverages(x);
    const high = g.reduce((a, b) => Math.max(a, b), 0);
    return {
      axes: { now: axis, after: axis },
      varies: true,
      solve: (now, into, draw) => {
        const y = bestSetPoint(inputs(now), draw < 0 ? undefined : (i) => streams[i][draw]);
        order.forEach((i, k) => {
          into.now[k] = x.marks[i].says - x.marks[i].is;
          into.after[k] = y.left[i];
        });
        return {
          shift: y.shift,
          shiftHigh: y.shift * high,
          worstNow: y.worstNow,
          worstLeft: y.worstLeft,
          runLeft: y.runLeft,
          overTolerance: Math.abs(y.worstLeft) - now.tolerance,
        };
      },
    };
  },
  headline: (g) => {
    const true_ = g.verdict((_, y) => (y as unknown as { overTolerance: number }).overTolerance <= 0);
    const move = `Move the main dial so that the lowest mark goes ${(g.figures.shift.value ?? 0) >= 0 ? "up" : "down"} by ${g.about("shift").replace(/^-/, "")}`;
    return `${move}: ${true_ === "yes" ? "the whole scale is then true" : true_ === "no" ? "even so no one setting is true over the whole scale" : "whether the whole scale is then true can't be told yet"}, the worst mark being off by ${g.about("worstLeft")}.`;
  },
  findings: (g) => {
    const x = inputs(g.best);
    const y = bestSetPoint(x);
    const lever = leverages(x);
    // the mark that moves the dial best is the one whose own rest is smallest
    const pick = y.left.map((v, i) => [Math.abs(v), i] as const).sort((a, b) => a[0] - b[0])[0][1];
    const mark = x.marks[pick];
    const target = mark.says - y.shift * lever[pick];
    const out: Finding[] = [
      {
        id: "set-point-move",
        severity: Math.abs(y.shift) > x.tolerance / 4 ? "act" : "note",
        says: `With the bandspread scale at ${mhz(target)} the marker at ${printExact(mark.is, "frequency")} should be in zero beat.`,
        do: `Put the bandspread dial to ${mhz(target)}, then turn the main dial, from its usual side, until the marker at ${printExact(mark.is, "frequency")} is in zero beat. Mark the main dial there: it is the set-point of this band.`,
        restsOn: ["shift"],
        hazards: none,
      },
    ];
    const can = g.verdict((_, v) => (v as unknown as { overTolerance: number }).overTolerance <= 0);
    if (can !== "yes")
      out.push({
        id: `set-point-whole-${can}`,
        severity: "check",
        says: `After the move the worst mark is off by ${g.say("worstLeft")}; the remaining error runs along the scale by ${g.say("runLeft")}.`,
        do:
          Math.abs(y.runLeft) > 1.2 * Math.abs(y.worstLeft)
            ? "One end right and the other off is not the set-point: the bandspread trimmer, or a plate of the bandspread capacitor, changes the run of the scale. Align the oscillator first, then come back."
            : "Set it true over the part of the scale you use, and use the dial's correction table for the rest.",
        restsOn: ["worstLeft", "runLeft"],
        hazards: none,
      });
    return out as never;
  },
  tables: (best) => {
    const x = inputs(best);
    const y = bestSetPoint(x);
    const at = (name: string, u: number) => ({ name, dimension: "frequency" as const, u });
    return [
      {
        id: "marks",
        title: "Marks before and after",
        columns: [at("scale says", 50), { name: "truth", dimension: "frequency", exact: true }, at("off now", 50), at("off after", 50)],
        rows: x.marks.map((m, i) => [m.says, m.is, m.says - m.is, y.left[i]]),
      } satisfies Table,
    ];
  },
  figures: [
    {
      id: "marks",
      title: "What the scale says, less the truth",
      xLabel: "scale",
      yLabel: "off by",
      traces: [
        { label: "as it stands", curve: "now", stroke: "faint", dash: true },
        { label: "after the move", curve: "after", stroke: "ink", band: true },
      ],
    },
  ],
  theory,
});

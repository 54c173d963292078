import { expect, it } from "vitest";
import { answer } from "../ask/answer";
import { emptyBench } from "../set/bench";
import { orThrow } from "../units/issue";
import { sheets } from "./index";

const few = { draws: 60, points: 31 };
it.each(sheets.map((s) => [s.id, s] as const))(
  "%s: bands of what no figure draws with one are worked out when asked for, and change nothing else",
  (_, s) => {
    const drawn = new Set(s.figures.flatMap((f) => f.traces.flatMap((t) => (t.band ? [t.curve] : []))));
    const { curves, ...rest } = orThrow(answer(s, emptyBench, few));
    const { curves: all, ...restOfAll } = orThrow(answer(s, emptyBench, { ...few, bands: "all" }));
    expect(rest).toEqual(restOfAll);
    for (const [name, { band, ...curve }] of Object.entries(all)) {
      expect(band, name).toBeDefined();
      expect(curves[name], name).toEqual({ ...curve, ...(drawn.has(name) ? { band } : {}) });
    }
  },
);

import { answers } from "../../ask/declare";
import { dialAxis } from "../../infer/dial/draw";
import { hzAt } from "../../infer/dial/fitted";
import { orThrow } from "../../units/issue";
import { beatsOff, doubtHz, readingsAlong, straightLine } from "../inputs/dial-figures";
import { dialOf } from "../inputs/dial-law";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { dialSolver, lawDraws } from "./solve";
import { tablesOf } from "./tables";
import theory from "./theory.md";

export const dial = answers(ask, {
  theory,
  refuse: (x) => {
    const read = dialOf(x);
    return read.ok ? undefined : read.issues;
  },
  prepare: (best, points, chance) => {
    const judged = orThrow(dialOf(best));
    const { fit } = judged;
    const draws = lawDraws(fit, chance);
    const solved = dialSolver(best, judged);
    const axis = readingsAlong(fit, points);
    const along = dialAxis(fit, axis);
    const atBest = axis.map((r) => hzAt(fit, r));
    const beats = beatsOff(fit);
    const line = axis.map(straightLine(fit));
    const doubt = axis.map((r) => doubtHz(fit, r));
    return {
      axes: { bend: axis, doubt: axis, beats: beats.reading },
      varies: true,
      solve: (x, into, draw) => {
        const law = draws(draw);
        if (law) law(along, into.bend);
        else into.bend.set(atBest);
        for (let i = 0; i < axis.length; i++) into.bend[i] -= line[i];
        into.doubt.set(doubt);
        into.beats.set(beats.offHz);
        return solved(x, law);
      },
    };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  tables: tablesOf,
});

import { answers } from "../../ask/declare";
import { halfIfHz, imageHz } from "../../physics/images";
import { printValue } from "../../units/print";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, hz } from "./findings";
import { alone, atWay, leaves, secondAt } from "./solve";
import theory from "./theory.md";

export const image = answers(ask, {
  theory,
  refuse: (x, bad) => {
    if (!(x.high > x.low)) return bad("high", "crossed", hz(x.high), `a frequency above low, ${hz(x.low)}`);
    if (Math.abs(x.signal / x.intermediate - 1) < 1e-3)
      return bad("signal", "on-the-if", hz(x.signal), "a frequency off the IF: on it the set would receive its own IF");
    if (x.oscillator === "below" && x.signal <= x.intermediate)
      return bad("oscillator", "through-nothing", "below", `above, since ${hz(x.signal)} minus the IF is zero or below`);
    if (x.oscillator === "below" && Math.abs(x.signal / (2 * x.intermediate) - 1) < 1e-3)
      return bad("oscillator", "oscillator-on-the-if", "below", "above: below it would run on the IF itself at this place");
    const off = x.readings.findIndex((r) => !(r.signal > 0) || Math.abs(r.rejection) > 150);
    return off < 0 ? undefined : bad(`readings row ${off + 1}`, "out-of-range", String(x.readings[off].rejection), "-150 dB to 150 dB");
  },
  prepare: (best) => {
    const axis = Float64Array.from({ length: 61 }, (_, i) => best.low * (best.high / best.low) ** (i / 60));
    return {
      axes: { image: axis, ownIf: axis },
      solve: (x, into) => {
        for (let i = 0; i < axis.length; i++) {
          into.image[i] = leaves(x, axis[i], 0);
          into.ownIf[i] = leaves(x, axis[i], 1);
        }
        return {
          imageAt: imageHz(x.signal, x.intermediate, x.oscillator),
          imageRejection: leaves(x, x.signal, 0),
          imageAtLow: leaves(x, x.low, 0),
          imageAtHigh: leaves(x, x.high, 0),
          ifRejection: leaves(x, x.signal, 1),
          halfIfAt: halfIfHz(x.signal, x.intermediate, x.oscillator),
          halfIfRejection: alone(x, x.signal, 2),
          heardAt: secondAt(x) ?? { none: "there is no second place on the dial for it: two IF lower is zero or below" },
        };
      },
    };
  },
  drawing: drawingOf,
  headline: (g) => {
    const read = g.best.readings.find((r) => r.way === 0 && Math.abs(r.signal / g.best.signal - 1) < 0.02);
    if (read)
      return `Measured at ${hz(read.signal)}: the image is ${printValue(read.rejection, "decibel", 3)} down, where these circuits give ${printValue(leaves(g.best, read.signal, 0), "decibel", 3)}.`;
    return `Tuned to ${hz(g.best.signal)} the set hears ${g.about("imageAt")} too, ${g.about("imageRejection")} down; ${secondAt(g.best) === undefined ? "a strong signal has no second place here." : `a strong signal on ${hz(g.best.signal)} itself comes in again with the dial at ${g.about("heardAt")}.`}`;
  },
  findings: findingsOf,
  tables: (x) => {
    return [
      {
        id: "ways",
        title: "Rejection over the band, as these circuits give it",
        columns: [
          { name: "tuned to", dimension: "frequency", u: 500 },
          { name: "image at", dimension: "frequency", u: 500 },
          { name: "image", dimension: "decibel", u: 0.5 },
          { name: "IF", dimension: "decibel", u: 0.5 },
          { name: "half IF at", dimension: "frequency", u: 500 },
          { name: "its circuits alone", dimension: "decibel", u: 0.5 },
        ],
        rows: [0, 0.25, 0.5, 0.75, 1].map((k) => {
          const f = x.low + k * (x.high - x.low);
          return [f, atWay(x, f, 0), leaves(x, f, 0), leaves(x, f, 1), atWay(x, f, 2), alone(x, f, 2)];
        }),
      },
    ];
  },
});

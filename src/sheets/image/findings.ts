import { printValue } from "../../units/print";
import type { G, Put } from "./ask";
import { isOneFewer, leaves, secondAt } from "./solve";

export const hz = (v: number): string => printValue(v, "frequency", Math.max(500, Math.abs(v) * 1e-4));
const db = (v: number): string => printValue(v, "decibel", 3);

/**
 * Whether the oscillator is on its side, and whether the readings are what the circuits give.
 *
 * @param g the ground: results, best inputs, the set
 * @param put takes a finding
 * @source two IF between a signal and its image; what to do: common practice, no source
 */
export function findingsOf(g: G, put: Put): void {
  aboutSide(g, put);
  for (const i of g.best.readings.keys()) aboutReading(g, i, put);
  tryTheSide(g, put);
}
function aboutSide({ best: x }: G, put: Put): void {
  const away = x.oscillator === "above" ? "two IF lower" : "two IF higher";
  if (x.secondPlace === "louder there than on its mark") {
    put(
      "image-circuits-on-image",
      "act",
      "The generator is louder at the second place than on its own mark: the signal circuits are peaked on the image.",
      {
        do: "Leave the oscillator. Peak the signal circuits on the mark itself, from the other end of their travel, with a weak signal and the tuning rocked; then try once more.",
        restsOn: ["imageRejection"],
        state: "open-live",
      },
    );
    return;
  }
  if (x.secondPlace === "not tried" || x.secondPlace === away) return;
  put(
    "image-wrong-side",
    "act",
    `The second place lies ${x.secondPlace}: the oscillator runs ${x.oscillator === "above" ? "below" : "above"} the signal here, on the wrong side.`,
    {
      do: `Of the two settings of the oscillator trimmer that bring the signal in, take the one with ${x.oscillator === "above" ? "less" : "more"} capacitance; then peak the signal circuits again and try once more. No other adjustment will settle before that.`,
      restsOn: ["heardAt"],
      state: "open-live",
    },
  );
}
function aboutReading(g: G, i: number, put: Put): void {
  const x = g.best;
  const r = x.readings[i];
  const given = leaves(x, r.signal, r.way);
  const name = `${["Image", "IF", "Half-IF"][r.way]} rejection at ${hz(r.signal)} is ${db(r.rejection)}; the circuits give ${db(given)}`;
  const id = `image-reading-${i + 1}`;
  const restsOn = ["imageRejection"] as const;
  if (r.rejection < 0) {
    put(
      `${id}-negative`,
      "act",
      `${name}. The set is better on the wrong frequency than on the right one: the signal circuits are peaked there.`,
      {
        do: "Leave the oscillator. Peak the signal circuits on the signal itself, from the other end of their travel, and measure again.",
        restsOn,
        state: "open-live",
      },
    );
    return;
  }
  const short = g.verdict((y) => r.rejection < leaves(y, r.signal, r.way) - 6);
  if (short === "no") {
    const over = g.verdict((y) => r.rejection > leaves(y, r.signal, r.way) + 6);
    const said =
      over === "yes"
        ? "better than these circuits can do: check the readings, and on which side the oscillator is: if it is on the wrong one, so is the image"
        : "as these circuits should give, within 6 dB";
    put(`${id}-as-built`, "note", `${name}: ${said}.`, { restsOn });
    return;
  }
  const fewer = isOneFewer(x, r) && g.verdict((y) => isOneFewer(y, r)) !== "no";
  const says = fewer
    ? `${name}: ${db(given - r.rejection)} less, about what one circuit of the ${Math.round(x.circuits)} gives. One of them does nothing, or the set has one fewer than counted.`
    : `${name}: ${short === "yes" ? "more than 6 dB short" : "perhaps short"}.`;
  put(`${id}-${fewer ? "one-fewer" : `short-${short}`}`, "check", says, {
    do: fewer
      ? "Count the gang's sections, leaving out the oscillator's. Then, with a weak signal here, turn each signal trimmer a little and back: the one without a peak is the dead circuit. Look there for a broken coil or lead, a band switch that does not close, a section that touches."
      : "Peak the signal circuits at this place with a weak signal and rock the tuning; a circuit without a peak has lost Q (a leak, shorted turns, a corroded band switch). Then look for a way round them: an unshielded lead, an open chassis bottom.",
    restsOn,
    state: "open-live",
  });
}
function tryTheSide({ best: x }: G, put: Put): void {
  if (x.secondPlace !== "not tried") return;
  put(
    "image-try-the-side",
    "check",
    "Which side the oscillator is on has not been tried on this band. Its own mark is the louder place either way: the weaker one tells.",
    {
      do: `With a strong generator on a mark, look for its second, weaker place ${hz(2 * x.intermediate)} to both sides: it must lie ${x.oscillator === "above" ? "lower" : "higher"} on the dial.${(secondAt(x) ?? 0) > 0 ? "" : " On a mark this low there is none: use a higher one."}`,
      restsOn: ["heardAt"],
      state: "panel",
    },
  );
}

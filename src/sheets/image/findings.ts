import type { GroundOn } from "../../ask/contract";
import { inside } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import { printValue } from "../../units/print";
import { type ImageInputs, type ImageNames, isOneFewer, leaves, secondAt } from "./solve";

export type G = GroundOn<ImageInputs, ImageNames>;
export const hz = (v: number): string => printValue(v, "frequency", Math.max(500, Math.abs(v) * 1e-4));
const db = (v: number): string => printValue(v, "decibel", 3);

/** Whether the oscillator is on its side, and whether the readings are what the circuits give. */
export function findingsOf(g: G): Finding[] {
  return [...aboutSide(g), ...g.best.readings.map((_, i) => aboutReading(g, i)), ...tryTheSide(g)];
}
function aboutSide(g: G): Finding[] {
  const x = g.best;
  const away = x.oscillator === "above" ? "two IF lower" : "two IF higher";
  if (x.secondPlace === "louder there than on its mark")
    return [
      {
        id: "image-circuits-on-image",
        severity: "act",
        says: "The generator is louder at the second place than on its own mark: the signal circuits are peaked on the image.",
        do: "Leave the oscillator. Peak the signal circuits on the mark itself, from the other end of their travel, with a weak signal and the tuning rocked; then try once more.",
        restsOn: ["imageRejection"],
        hazards: inside,
        state: "open-live",
      },
    ];
  if (x.secondPlace === "not tried" || x.secondPlace === away) return [];
  return [
    {
      id: "image-wrong-side",
      severity: "act",
      says: `The second place lies ${x.secondPlace}: the oscillator runs ${x.oscillator === "above" ? "below" : "above"} the signal here, on the wrong side.`,
      do: `Of the two settings of the oscillator trimmer that bring the signal in take the one with ${x.oscillator === "above" ? "less" : "more"} capacitance; then peak the signal circuits again and try once more. No other adjustment will settle before that.`,
      restsOn: ["heardAt"],
      hazards: inside,
      state: "open-live",
    },
  ];
}
function aboutReading(g: G, i: number): Finding {
  const x = g.best;
  const r = x.readings[i];
  const given = leaves(x, r.signal, r.way);
  const name = `${["Image", "IF", "Half-IF"][r.way]} rejection at ${hz(r.signal)} is ${db(r.rejection)}; the circuits give ${db(given)}`;
  const id = `image-reading-${i + 1}`;
  const restsOn = ["imageRejection"] as const;
  const live = { hazards: inside, state: "open-live" } as const;
  if (r.rejection < 0)
    return {
      id: `${id}-negative`,
      severity: "act",
      says: `${name}. The set is better on the wrong frequency than on the right one: the signal circuits are peaked there.`,
      do: "Leave the oscillator. Peak the signal circuits on the signal itself, from the other end of their travel, and measure again.",
      restsOn,
      ...live,
    };
  const short = g.verdict((y) => r.rejection < leaves(y, r.signal, r.way) - 6);
  if (short === "no") {
    const over = g.verdict((y) => r.rejection > leaves(y, r.signal, r.way) + 6);
    return {
      id: `${id}-as-built`,
      severity: "note",
      says: `${name}: ${over === "yes" ? "better than these circuits can do: look at the readings once more, and whether the oscillator is on its side, since then the image lies on the other" : "as its circuits give, within 6 dB"}.`,
      restsOn,
      hazards: ["none"],
    };
  }
  const fewer = isOneFewer(x, r) && g.verdict((y) => isOneFewer(y, r)) !== "no";
  return {
    id: `${id}-${fewer ? "one-fewer" : `short-${short}`}`,
    severity: "check",
    says: fewer
      ? `${name}: ${db(given - r.rejection)} fewer, about what one circuit of the ${Math.round(x.circuits)} gives. One of them does nothing, or the set has one fewer than counted.`
      : `${name}: ${short === "yes" ? "more than 6 dB short" : "perhaps short"}.`,
    do: fewer
      ? "Count the sections of the gang but the oscillator's. Then, a weak signal at this place, turn each signal trimmer a little and back: the one without a peak is the dead circuit. Look there for a broken coil or lead, a band switch that does not close, a section that touches."
      : "Peak the signal circuits at this place with a weak signal and rock the tuning; a circuit without a peak has lost Q (a leak, shorted turns, a corroded band switch). Then look for a way round them: an unshielded lead, an open chassis bottom.",
    restsOn,
    ...live,
  };
}
function tryTheSide(g: G): Finding[] {
  const x = g.best;
  if (x.secondPlace !== "not tried") return [];
  return [
    {
      id: "image-try-the-side",
      severity: "check",
      says: "Which side the oscillator is on has not been tried on this band. Its own mark is the louder place either way: the weaker one tells.",
      do: `With a strong generator on a mark, look for its second, weaker place ${hz(2 * x.intermediate)} to both sides: it must lie ${x.oscillator === "above" ? "lower" : "higher"} on the dial.${(secondAt(x) ?? 0) > 0 ? "" : " On so low a mark there is none: use a higher one."}`,
      restsOn: ["heardAt"],
      hazards: inside,
      state: "panel",
    },
  ];
}

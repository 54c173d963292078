import type { DraftingOf } from "../../ask/declare";
import { ladder } from "../../ask/drawn/ladder";
import type { Lamp, Lamps } from "../../ask/drawn/lamps";
import type { Sketch } from "../../ask/drawn/pictures";
import { printValue } from "../../units/print";
import type { ask, G } from "./ask";

const looks = (share: number): string =>
  share < 0.12 ? "dark" : share < 0.35 ? "a dull red" : share < 0.6 ? "dim" : share < 0.85 ? "bright" : "full";

/**
 * The bulb in series with the set, and how it glows: before a sound set, as read, before a dead short.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns circuit and lamps
 * @source lampInSeries; how a share of the volts looks: common practice, no source
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): readonly Sketch[] {
  const x = g.best;
  const expected = g.figures.setExpected.value ?? g.figures.setExpected.high;
  const lamp = (label: string, setV: number, read = false): Lamp => {
    const bulbV = Math.max(0, x.lineVoltage - setV);
    const share = Math.min(1, bulbV / x.bulbRated);
    return { label, share, says: `${looks(share)}: ${printValue(bulbV, "voltage", 3)} on it`, ...(read ? { read: true } : {}) };
  };
  const seen = x.setVolts;
  const lamps: Omit<Lamps, "example"> = {
    kind: "lamps",
    id: "glow",
    title: `How the ${printValue(x.bulbWatts, "power")} bulb glows, a minute after the switch`,
    lamps: [
      ...(expected === null ? [] : [lamp("a sound set", expected)]),
      ...(seen === undefined ? [] : [lamp("as read", seen, true)]),
      lamp("a dead short", 0),
    ],
  };
  const now = seen ?? expected ?? 0;
  const circuit = ladder({ id: "bulb", title: "The bulb in the line of the set", common: draft.common }, [
    { label: "line", end: "terminal", volts: { ...draft.expect("lineVoltage"), ac: true } },
    { series: { kind: "fuse", what: "fuse" } },
    {
      series: {
        kind: "lamp",
        what: "bulb in series",
        value: draft.value("bulbWatts"),
        mark: "fit",
        glow: Math.max(0, x.lineVoltage - now) / x.bulbRated,
      },
      label: "the set's plug",
      volts: { ...draft.expect("setExpected"), ...(seen === undefined ? {} : { read: seen }), ac: true },
      down: [[{ kind: "block", what: "the set", below: { end: "terminal", label: "neutral" } }]],
    },
  ]);
  return [lamps, circuit];
}

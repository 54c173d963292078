import type { DraftingOf } from "../../ask/declare";
import type { DialFace } from "../../ask/drawn/dial-face";
import { ladder } from "../../ask/drawn/ladder";
import type { Sketch } from "../../ask/drawn/pictures";
import { mhz } from "../inputs/dial-figures";
import type { ask, G } from "./ask";

/** The receiver's dial as it stands behind the converter: the band's ends on it, and what they mean. */
function dialOf(g: G): Omit<DialFace, "example"> | undefined {
  const { dialAtLow, dialAtHigh } = g.figures;
  const [low, high] = [dialAtLow.value, dialAtHigh.value];
  if (low === null || high === null || low === high) return undefined;
  const x = g.best;
  const [from, to] = [Math.min(low, high), Math.max(low, high)];
  const margin = 0.12 * (to - from);
  const step = [10e3, 20e3, 50e3, 100e3, 200e3, 500e3, 1e6].find((s) => (to - from) / s <= 6) ?? 1e6;
  const marks = [];
  for (let k = Math.ceil((from - margin) / step); k * step <= to + margin; k++) marks.push({ at: k * step, text: (k * step) / 1e6 });
  return {
    kind: "dial",
    id: "behind",
    title: "The receiver's dial behind the converter",
    scale: { from: from - margin, to: to + margin, says: "MHz on the receiver's dial" },
    marks: marks.map(({ at, text }) => ({ at, text: String(Number(text.toFixed(3))) })),
    beats: [],
    window: { from, to, says: `${mhz(x.wantedLow)} to ${mhz(x.wantedHigh)}` },
    edges: [],
  };
}

/**
 * The converter before the receiver, and the receiver's dial behind it.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns circuit and dial
 * @source bestCrystal
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): readonly Sketch[] {
  const x = g.best;
  const q = draft.value("inputQ");
  const inputs = Math.max(1, Math.min(3, Math.round(x.inputCircuits)));
  const dial = dialOf(g);
  const [from, to] = [g.figures.dialAtLow.value, g.figures.dialAtHigh.value];
  const dialSaid = from === null || to === null ? undefined : `${mhz(from)} to ${mhz(to)}`;
  const circuit = ladder({ id: "before", title: "The converter before the receiver", common: draft.common }, [
    { label: "antenna", end: "terminal" },
    {
      series: { kind: "capacitor", what: "in, or a link" },
      down: Array.from({ length: inputs }, () => [
        {
          kind: "tank",
          what: `${mhz((x.wantedLow + x.wantedHigh) / 2)}`,
          says: q && `Q ${q.text}${q.assumed ? "?" : ""}`,
          mark: "turn",
        } as const,
      ]),
    },
    {
      series: { kind: "block", what: "mixer", says: "and its oscillator" },
      down: [[{ kind: "crystal", what: "crystal", value: draft.result("crystal"), mark: "fit" }]],
    },
    { series: { kind: "cable", what: "cable", braid: draft.common }, label: "receiver's antenna terminal" },
    { series: { kind: "block", what: "receiver", says: dialSaid }, end: "onward" },
  ]);
  return dial ? [circuit, dial] : [circuit];
}

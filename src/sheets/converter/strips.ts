import type { Strips } from "../../ask/drawings";
import { type CrystalChoice, crowdIn } from "../../infer/crystal/choose";
import { type ConverterPlan, dialHz, imageOf, signalAtDialHz, tunedOver } from "../../physics/converter";
import type { Asked } from "./ask";
import { markersMeet, throughOwnImageHz } from "./solve";

const mhz = (v: number): string => String(Number((v / 1e6).toFixed(4)));
const range = (a: number, b: number): string => `${mhz(a)} to ${mhz(b)} MHz`;

/** So many markers stand in a row, each with its words. */
const mostShown = 14;

/** Places of the markers on the dial, through the converter and past it; one row where they meet. */
function markerRows(x: Asked, p: ConverterPlan, low: number, high: number): Strips["rows"] {
  const s = x.markerSpacing;
  const places = (offset: number): number[] => {
    const first = Math.ceil((low - offset) / s - 1e-9);
    // one more than are shown tells that there are too many: of a spacing of nothing there would be no end
    const count = Math.min(mostShown + 1, Math.floor((high - offset) / s + 1e-9) - first + 1);
    return Array.from({ length: count }, (_, i) => offset + (first + i) * s);
  };
  const row = (label: string, at: readonly number[], says: (d: number) => string): Strips["rows"][number] => ({
    label,
    stroke: "faint",
    // so many that they say nothing by themselves are left to the table of the dial
    spans: at.length > mostShown ? [] : at.map((d) => ({ from: d, to: d, says: says(d) })),
  });
  const past = row("Markers past the converter", places(0), mhz);
  const through = row("Markers through the converter", places(p.side === "below" ? -p.crystalHz : p.crystalHz), (d) =>
    mhz(signalAtDialHz(p, d)),
  );
  return markersMeet(x, p) ? [{ ...through, label: "Markers, by both paths at one place" }] : [through, past];
}

/**
 * The whole plan over the receiver's dial, in words.
 *
 * @param x inputs, SI
 * @param c the crystal with its plan
 * @returns a strip over the receiver's own dial, Hz
 * @source physics/converter.ts
 */
export function planStrips(x: Asked, c: CrystalChoice): Strips {
  const p = c.plan;
  const [low, high] = tunedOver(p);
  const image = imageOf(p);
  const whole = (says: string) => [{ from: low, to: high, says }];
  const at = (dial: number): number => signalAtDialHz(p, dial);
  const imageAt = (dial: number): number => Math.abs(p.crystalHz + (p.side === "below" ? -dial : dial));
  // where the crowd of the image or of the dial stands, on the dial
  const onImage = crowdIn(image.lowHz, image.highHz);
  const onDial = crowdIn(low, high);
  return {
    id: "plan",
    title: `The whole plan behind ${mhz(p.crystalHz)} MHz, over the receiver's own dial`,
    dimension: "frequency",
    from: low,
    to: high,
    axis: "receiver's own dial",
    also: { label: "stands for", atFrom: at(low), atTo: at(high) },
    rows: [
      {
        label: "Wanted",
        stroke: "accent",
        spans: whole(`${range(at(low), at(high))}${p.side === "above" ? ", backward, sidebands swapped" : ""}`),
      },
      {
        label: "Image: comes in at the same places",
        stroke: "ink",
        spans: whole(
          `${range(imageAt(low), imageAt(high))}, ${c.imageDb.toFixed(0)} dB down at least${onImage.length > 0 ? `: ${onImage.join(", ")}` : ""}`,
        ),
      },
      {
        label: "Past the converter, straight into the receiver",
        stroke: "ink",
        spans: whole(onDial.length > 0 ? onDial.join(", ") : "nothing strong is expected"),
      },
      {
        label: "Through the receiver's own image",
        stroke: "faint",
        spans: whole(range(throughOwnImageHz(x, p, low), throughOwnImageHz(x, p, high))),
      },
      ...markerRows(x, p, low, high),
      ...trapRows(c),
    ],
  };
}
/** Where signals whistle with themselves, and where steady notes are. */
const trapRows = ({ plan: p, responses, birdies }: CrystalChoice): Strips["rows"] => [
  {
    label: "Signals that whistle with themselves",
    stroke: "ink",
    spans: responses.flatMap((r) =>
      r.crossHz === undefined
        ? []
        : [{ from: dialHz(p, r.crossHz), to: dialHz(p, r.crossHz), says: `${mhz(r.crossHz)}, order ${r.m + r.n}` }],
    ),
  },
  {
    label: "Steady notes that are not signals",
    stroke: "accent",
    spans: birdies.map((b) => ({
      from: b.dialHz,
      to: b.dialHz,
      says: `${mhz(b.dialHz)} ${b.kind === "IF harmonic" ? `IF x ${b.p}` : b.kind === "receiver's oscillator" ? `oscillator x ${b.p}` : `crystal x ${b.p}`}`,
    })),
  },
];

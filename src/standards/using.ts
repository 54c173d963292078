/** How an accessory is used once it is fitted, in the words of the trade: for the owner who did not fit it. */
export interface Using {
  readonly title: string;
  readonly steps: readonly string[];
  /** what can hurt a person or the set while it is used */
  readonly heed: string;
  readonly source: string;
}
const practice = "common practice, no source";
const all: Readonly<Record<string, Using>> = {
  "q-multiplier": {
    title: "Using the Q multiplier",
    steps: [
      "Switch it off, tune the station for loudest, and leave the receiver's tuning alone from then on.",
      "Switch to peak. Raise the regeneration until the band noise narrows to a hollow ring; if it whistles by itself, back off until the whistle stops.",
      "Turn its own tuning through the station and stop where the voice stands out. Less regeneration lets more of the voice through; more of it cuts deeper and sounds duller.",
      "For a whistle beside the station: switch to null, turn its tuning until the whistle dips, then work the depth and the tuning in turn until it is gone.",
      "After half an hour's warm-up its centre may want a touch of the knob. That is usual.",
    ],
    heed: "Its cable is part of the tuned circuit and runs to a point with B+ behind it. Never unplug, lengthen or replace it yourself, least of all with the set on: the first IF transformer would have to be peaked again.",
    source: practice,
  },
  "marker-generator": {
    title: "Using the marker generator",
    steps: [
      "Let the set warm for half an hour. Switch the markers and the BFO on.",
      "Go to the marker nearest to where you mean to listen and tune it to zero beat, coming to it from the side that the dial card names.",
      "The dial card gives the scale reading that belongs there. How far the pointer stands from it is today's error: allow for it, or correct the pointer.",
      "Near the end of a band, count from the marker: what lies between it and the edge is on the card.",
      "Switch the markers off to listen. A faint whistle at every marker means that they are still on.",
    ],
    heed: "A marker shows where a frequency lies; it gives no leave to transmit there. That is for your licence to say.",
    source: practice,
  },
  converter: {
    title: "Using the converter",
    steps: [
      "Switch the converter on and set the receiver to the range that its card names.",
      "The card gives the receiver's dial for each wanted frequency. Tune as on any other band.",
      "If the converter has a tuning control of its own, peak it on the antenna noise.",
      "Some steady notes are the converter's own, not signals: the card lists them. They stay when its antenna is taken off.",
      "Switch it off, or back to the receiver's own antenna, for the other bands.",
    ],
    heed: "It takes its supply from the receiver or from the line: keep it closed while either is plugged in.",
    source: practice,
  },
};

/**
 * How to use an accessory of a kind.
 *
 * @param kind such as `q-multiplier`
 * @returns its steps; undefined where none are known
 * @source common practice, no source
 */
export const usingOf = (kind: string): Using | undefined => (Object.hasOwn(all, kind) ? all[kind] : undefined);

import type { Caution } from "./cautions";

const practice = "common practice of service literature; local electrical code prevails";
/** What is to be heeded where a receiver's sound is led into a computer or an instrument: said where the input is chosen. */
export const audioLead: readonly Caution[] = [
  {
    id: "isolate",
    says: "Lead the sound through an audio isolating transformer rated for line voltage, always. A divider or a capacitor is added to it, never put instead of it.",
    source: practice,
  },
  {
    id: "live-chassis",
    says: "A set with a live chassis is run from a line isolation transformer as well.",
    source: practice,
  },
  { id: "earth", says: "The grounds of computers and instruments are earth.", source: practice },
  {
    id: "secondary",
    says: "Take it from the loudspeaker's secondary with its load left on, measured first: no DC against chassis, none against earth. From a phones socket only if that is proved free of DC.",
    source: practice,
  },
];

import type { Caution } from "./cautions";

const practice = "common practice of service literature; local electrical code prevails";
/** What is to be heeded where a receiver's sound is led into a computer or an instrument: said where the input is chosen. */
export const audioLead: readonly Caution[] = [
  {
    id: "isolate",
    says: "Always take the sound through an audio isolating transformer rated for line voltage. A divider or a capacitor may be added to it; it never replaces it.",
    source: practice,
  },
  {
    id: "live-chassis",
    says: "A set with a live chassis is run from a line isolation transformer as well.",
    source: practice,
  },
  { id: "earth", says: "The ground of a computer or instrument is earth.", source: practice },
  {
    id: "secondary",
    says: "Take it across the loudspeaker winding with its load left on, measured first: no DC to chassis, none to earth. Use a phones socket only if it is proved free of DC.",
    source: practice,
  },
];
/** What is to be heeded where a computer's sound is led into a receiver's audio stages: said beside that step. */
export const noiseLead: readonly Caution[] = [
  {
    id: "noise-in",
    says: "B+ kills: clip the noise to nothing inside the set. It goes in at a phono or pick-up socket, measured first: no DC to chassis, none to earth.",
    source: practice,
  },
  {
    id: "isolate-in",
    says: "It takes an audio isolating transformer of its own, rated for line voltage. Plug it in while the set is unplugged, and begin with the computer's volume down.",
    source: practice,
  },
];

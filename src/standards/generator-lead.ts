import type { Caution } from "./cautions";

const practice = "common practice of service literature; local electrical code prevails";
/** What is to be heeded where a generator and a meter with earthed cases are led to a set: said before their output goes on. */
export const generatorLead: readonly Caution[] = [
  {
    id: "blocking",
    says: "B+ kills, and it is on every plate. Feed the generator through a capacitor rated for it, and clip on while the set is unplugged and discharged, MEASURED.",
    source: practice,
  },
  {
    id: "live-chassis",
    says: "The instruments' cases are earthed: neither is ever clipped to a live chassis, not even behind a line isolation transformer. Prove this one isolated first.",
    source: practice,
  },
  {
    id: "loudspeaker",
    says: "Read the output across the loudspeaker winding with its load left on, measured first: no DC to chassis, none to earth.",
    source: practice,
  },
  {
    id: "level",
    says: "Begin with a low level: no higher than the set's own signals at that point.",
    source: "common practice, no source",
  },
];

/** What is to be heeded where a meter or counter on the network is clipped to a set, or to the line. */
export const meterLead: readonly Caution[] = [
  {
    id: "clip-on-dead",
    says: "B+ and line voltage kill. Clip on while the set is off, unplugged and discharged, MEASURED; stand clear, switch on. Insulated clips, one hand, never alone.",
    source: practice,
  },
  {
    id: "live-chassis",
    says: "An instrument on the network may join its leads to earth: none is ever clipped to a live chassis, not even behind a line isolation transformer. Local code prevails.",
    source: practice,
  },
];

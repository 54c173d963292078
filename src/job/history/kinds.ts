import type { Hazard } from "../../ask/findings";
import type { HistoryName } from "../../set/addresses/history";
import type { State } from "../../standards/cautions";

/** One thing to measure or look at, and where it is kept: a value at a path of the set, or a step of the job with its card. */
export interface Lead {
  readonly says: string;
  /** value or fact that settles it */
  readonly path?: string;
  readonly step?: string;
  readonly sheet?: string;
  readonly state: State;
}
/** What others did: what is in doubt by it, the hazard until it is settled, and its measurements in order. Judgement of practitioners; common practice, no source. */
export interface HistoryKind {
  readonly widens: string;
  readonly hazards: readonly [Hazard, ...Hazard[]];
  readonly until: string;
  readonly leads: readonly [Lead, ...Lead[]];
}
const dead = "open-dead" as const;
const live = "open-live" as const;
const ohmsFirst: Lead = { says: "ohms of B+ to the chassis, before any power", step: "04", state: dead };
const behindBulb: Lead = { says: "first power behind a bulb", step: "08", sheet: "bring-up", state: live };
const bPlus: Lead = {
  says: "B+ on the first filter capacitor, against what it should be",
  path: "supplies.measuredFirst",
  sheet: "b-plus",
  state: live,
};

export const historyKinds: Readonly<Record<HistoryName, HistoryKind>> = {
  rectifierChanged: {
    widens: "B+ and its crest: silicon gives more, and all at once, before any tube draws current",
    hazards: ["b-plus", "stored-charge", "line"],
    until: "Until then no power except behind a bulb: filter capacitors may see more than they are rated for.",
    leads: [
      { says: "which rectifier is there now", path: "supplies.rectifierType", state: dead },
      { says: "surge resistor in series with each plate, by ohmmeter; 0 for none", path: "supplies.addedResistance", state: dead },
      ohmsFirst,
      { says: "volts that the filter capacitors are marked for", path: "supplies.capacitorRating", state: dead },
      behindBulb,
      bPlus,
    ],
  },
  transformerReplaced: {
    widens: "volts of every winding, B+ and heaters",
    hazards: ["b-plus", "stored-charge", "line"],
    until: "Until then no full power: B+ and heater volts may be anything.",
    leads: [
      { says: "resistance of the primary", path: "supplies.primaryResistance", state: dead },
      { says: "resistance of the winding that one plate of the rectifier sees", path: "supplies.secondaryResistance", state: dead },
      { says: "insulation from the line to the chassis", step: "03", sheet: "safety", state: dead },
      ohmsFirst,
      behindBulb,
      { says: "heater volts with all tubes in", path: "supplies.measuredHeater", sheet: "b-plus", state: live },
      bPlus,
    ],
  },
  transformerOverheated: {
    widens: "volts and resistance of its windings; insulation between them",
    hazards: ["b-plus", "stored-charge", "line", "heat"],
    until: "Until then never leave it on alone: shorted turns cook it, and its insulation may have gone.",
    leads: [
      { says: "insulation from the line to the chassis", step: "03", sheet: "safety", state: dead },
      { says: "resistance of the primary", path: "supplies.primaryResistance", state: dead },
      { says: "resistance of the winding that one plate of the rectifier sees", path: "supplies.secondaryResistance", state: dead },
      {
        says: "volts across the set behind a bulb with the rectifier out: shorted turns draw current with no load",
        path: "supplies.setVoltsNoRectifier",
        sheet: "bring-up",
        state: live,
      },
      { says: "its temperature rise in the soak, watched all the time", step: "34a", state: live },
    ],
  },
  fuseBridged: {
    widens: "what a fault on the line side may draw",
    hazards: ["line", "b-plus", "stored-charge"],
    until: "Until a fuse of the right value is in, the set stays unplugged.",
    leads: [
      { says: "fuse of the right rating and type, on the safety record", step: "03", sheet: "safety", state: dead },
      ohmsFirst,
      behindBulb,
    ],
  },
  cordCut: {
    widens: "which side of the line goes where, and whether the chassis is bonded",
    hazards: ["line", "live-chassis", "b-plus", "stored-charge"],
    until: "Until the cord is sound and its ends are traced, the set stays unplugged.",
    leads: [
      { says: "what cord it is", path: "safety.cord", state: dead },
      { says: "where each wire ends, bond and insulation, on the safety record", step: "03", sheet: "safety", state: dead },
    ],
  },
  capacitorsReplaced: {
    widens: "values and ratings of the filter; what is left of the old ones",
    hazards: ["b-plus", "stored-charge"],
    until: "Until then assume each one is wrong: value, rating, polarity.",
    leads: [
      { says: "each one on the card of the capacitor survey", step: "05", sheet: "reform", state: dead },
      { says: "first filter capacitor, by its marking, then a bridge", path: "supplies.firstCapacitance", state: dead },
      bPlus,
    ],
  },
  connectorWithBPlus: {
    widens: "where B+ can be touched",
    hazards: ["b-plus", "stored-charge", "live-chassis"],
    until: "Until then cover it, and plug nothing in: a bare pin may carry B+.",
    leads: [
      { says: "ohms from each of its contacts to B+ and to the chassis, set unplugged and discharged", step: "04", state: dead },
      { says: "volts that it carries, from clips put on with the set off", path: "safety.connectorVolts", sheet: "safety", state: live },
      { says: "that no contact with B+ can be touched, in the final safety test", step: "35", state: dead },
    ],
  },
  holesAdded: {
    widens: "whether the diagram still holds",
    hazards: ["b-plus", "stored-charge"],
    until: "Until then don't trust any lead to be what the diagram says.",
    leads: [
      { says: "each added lead traced and drawn, with a photograph", step: "02", state: dead },
      { says: "resistance chart against the service sheet", step: "11", state: dead },
    ],
  },
  shieldsMissing: {
    widens: "strays and stability of the stages that they covered",
    hazards: ["b-plus", "stored-charge"],
    until: "Until then align nothing for good: a shield that comes back detunes what it covers.",
    leads: [
      { says: "shields found or made, and on", step: "02", state: dead },
      { says: "IF alignment with the shields on", step: "20", sheet: "if-response", state: live },
    ],
  },
  slugsTurned: {
    widens: "where every can is tuned: each may be several kilohertz off",
    hazards: ["b-plus", "stored-charge"],
    until: "Until then turn nothing: a sweep as found tells which can is off and by how much.",
    leads: [
      { says: "the IF centre that the strip is to have", step: "18", sheet: "if-align", state: live },
      { says: "a sweep of the strip as found, read in, then the alignment", step: "20", sheet: "if-response", state: live },
    ],
  },
  accessoryCame: {
    widens: "what the set was like without it: what it loads, and what it draws",
    hazards: ["b-plus", "stored-charge", "live-chassis"],
    until: "Until then leave it unplugged from the set: its cable may carry B+.",
    leads: [
      { says: "ohms of its supply lead, before it is joined", step: "04", state: dead },
      {
        says: "volts that its connector carries, from clips put on with the set off",
        path: "safety.connectorVolts",
        sheet: "dc-block",
        state: live,
      },
      { says: "the final safety test with it and without it", step: "35", state: dead },
    ],
  },
};

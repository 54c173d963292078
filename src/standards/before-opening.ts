/**
 * The page that is read once, before the case is opened, and signed on the safety card. Every face links to it. Source: common practice of the trade and of
 * workshop safety; what is from memory says so. Local code, poison rules and licensed practice prevail.
 */
export interface BeforeOpening {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  readonly source: string;
}
const practice = "common practice, no source";

export const beforeOpening: readonly BeforeOpening[] = [
  {
    id: "two-persons",
    title: "Two people",
    says: "Never work alone on a set that is open and on. The other person knows where to cut the line and what to do after a shock: cut the power first, call for help, start resuscitation if trained.",
    source: practice,
  },
  {
    id: "isolation-transformer",
    title: "What an isolation transformer does, and what it doesn't",
    says: "It isolates a live chassis from the line, so that touching it and earth passes little current. It leaves B+ just as deadly, it does nothing between two points of the set, and behind it a residual-current device no longer trips. A variac or a series bulb isolates nothing.",
    source: "common practice; what defeats a residual-current device: from memory",
  },
  {
    id: "residual-current",
    title: "What a residual-current device does, and what it doesn't",
    says: "It trips on current that leaves the line for earth. It does not see B+ to chassis, nor a shock from line to neutral, and an isolation transformer takes it out of play. Fit one at the bench all the same; never count on it.",
    source: "common practice; from memory",
  },
  {
    id: "eyes",
    title: "Eyes",
    says: "Wear eye protection. Old electrolytics burst, picture and large transmitting tubes implode, clipped wires fly.",
    source: practice,
  },
  {
    id: "asbestos",
    title: "Asbestos",
    says: "Grey or white heat board, cord sheaths and paper near hot tubes may be asbestos. Don't scrape, brush or blow it; leave it alone, wet it down, or have it removed as local rules require.",
    source: practice,
  },
  {
    id: "beryllia",
    title: "Beryllia",
    says: "White or pink ceramic on power tubes and heat sinks may be beryllium oxide. Its dust can kill: never file, drill or break it.",
    source: practice,
  },
  {
    id: "oils",
    title: "PCB oil and chlorinated wax",
    says: "Oil-filled capacitors, old wax and wax paper may hold PCB or chlorinated naphthalenes. Wear gloves; no heat gun, no burning; wash before you eat; dispose of it as local rules require.",
    source: practice,
  },
  {
    id: "selenium",
    title: "Selenium rectifiers",
    says: "A failing selenium rectifier smells of rotten radish, and its fumes are poisonous: unplug the set, air the room, replace it.",
    source: practice,
  },
  {
    id: "radium-mercury",
    title: "Radium paint, mercury",
    says: "Dials and pointers that once glowed may carry radium: don't scrape or sand them. Some rectifiers, relays and tilt switches hold mercury: keep them whole.",
    source: practice,
  },
  {
    id: "fumes",
    title: "Solder and solvents",
    says: "Old solder is lead: ventilate, wash your hands, don't eat there. Solvents and contact cleaner are flammable and poisonous: let everything dry before power.",
    source: practice,
  },
  {
    id: "lifting",
    title: "Weight",
    says: "A communications receiver weighs 20 to 50 kg. Lift it with two people; stand it so that it can't tip over towards the heavy transformer end while you reach in.",
    source: practice,
  },
  {
    id: "fire",
    title: "Fire",
    says: "Somebody stays with a set that is soaking or reforming. Keep an extinguisher for electrical fires at hand and nothing flammable near; never leave it on overnight.",
    source: practice,
  },
];

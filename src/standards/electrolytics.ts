/** Limits of leakage of electrolytic capacitors. Each rule in its own words; A for farads and volts. */
export const leakageRules = [
  {
    name: "JAN-C-62",
    source:
      "JAN-C-62 and the old EIA acceptance: k C + 0.3 mA, C in uF; k 0.01 to 100 V, 0.02 to 250, 0.025 to 350, 0.04 to 500; as two amateurs quote it independently (read; not the military text itself)",
    limitA: (farad: number, volts: number): number => {
      const k = volts <= 100 ? 0.01 : volts <= 250 ? 0.02 : volts <= 350 ? 0.025 : 0.04;
      return (k * farad * 1e6 + 0.3) * 1e-3;
    },
  },
  {
    name: "plain foil",
    source: "old plain foil: 0.15 C V uA, C in uF; as one amateur quotes it (read)",
    limitA: (farad: number, volts: number): number => 0.15 * farad * volts,
  },
  {
    name: "modern",
    source: "modern low-voltage parts: 0.01 C V uA or 3 uA, C in uF; read in makers' sheets",
    limitA: (farad: number, volts: number): number => Math.max(0.01 * farad * volts, 3e-6),
  },
] as const;
export const leakageRuleNames = leakageRules.map((r) => r.name);
export const leakageLimitA = (rule: string, farad: number, volts: number): number =>
  (leakageRules.find((r) => r.name === rule) ?? leakageRules[0]).limitA(farad, volts);

/** Kinds and duties of capacitors in a set of this age, with how often each kind fails and what each duty does when it does. Common practice, no source. */
export const capacitorKinds = ["electrolytic", "wax paper", "moulded paper", "oil paper", "film", "ceramic", "mica"] as const;
export type CapacitorKind = (typeof capacitorKinds)[number];
export const failsOften: Readonly<Record<CapacitorKind, number>> = {
  electrolytic: 0.5,
  "wax paper": 0.8,
  "moulded paper": 0.7,
  "oil paper": 0.4,
  film: 0.02,
  ceramic: 0.02,
  mica: 0.03,
};
export const duties = [
  "line bypass",
  "output coupling",
  "filter",
  "AVC",
  "screen bypass",
  "coupling",
  "cathode bypass",
  "plate or supply bypass",
  "inside an IF can",
  "tuned circuit",
  "series at B+",
  "antenna of a live chassis",
] as const;
export type Duty = (typeof duties)[number];
/** harm from 0 to 1, and what it is */
export const harms: Readonly<Record<Duty, readonly [number, string]>> = {
  "line bypass": [1, "a short puts the line on the chassis: it can kill"],
  "output coupling": [0.8, "a leak ruins the output tube and its transformer"],
  filter: [0.75, "a short kills the rectifier and power transformer, and the capacitor can burst"],
  AVC: [0.4, "a leak makes every controlled tube draw too much, and upsets the AVC"],
  "screen bypass": [0.4, "a short burns the screen resistor"],
  coupling: [0.35, "a leak shifts the next grid"],
  "cathode bypass": [0.2, "a short removes the bias"],
  "plate or supply bypass": [0.3, "a short burns the feed resistor"],
  "inside an IF can": [0.35, "silver migrates: crackle, and B+ on the AVC line"],
  "tuned circuit": [0.05, "it detunes; leave it unless proved bad"],
  "series at B+": [0.95, "a short or leak puts B+ on cable, connector and accessory: it can kill"],
  "antenna of a live chassis": [1, "a short or leak puts the line on the antenna terminal: it can kill"],
};
/** Share that an electrolytic may have lost before it counts as dried out. Common practice, no source. */
export const driedShare = 0.2;
/** Share that a capacitor of a tuned circuit may be off its marking. Common practice, no source: mica and ceramic of the era are 5 to 10 % parts. */
export const tunedOffShare = 0.1;
/** Most that a capacitor in series at B+ may leak at its working volts, A: what a usual tester still shows. Common practice, no source. */
export const seriesLeakMostA = 1e-6;

import { type MendSaid, mending } from "../mend";
import { type Played, put, stamp } from "./played.testdata";
import type { World, WorldFault } from "./world.testdata";

/** What the question on a stage calls each fault of the worlds, and the part that is changed for it. */
export const known: Readonly<Record<string, { readonly cause: RegExp; readonly part: string; readonly in: string }>> = {
  couplingLeak: { cause: /coupling capacitor to the grid leaky/, part: "coupling-capacitor", in: "22 nF" },
  cathodeResistor: { cause: /cathode resistor/, part: "cathode-resistor", in: "68 ohm" },
  screenResistor: { cause: /screen resistor/, part: "screen-resistor", in: "68 kohm" },
  screenBypassLeak: { cause: /screen bypass/, part: "bypass-capacitor", in: "47 nF" },
  cathodeBypassLeak: { cause: /cathode bypass/, part: "bypass-capacitor", in: "0.1 uF" },
  decouplingLeak: { cause: /decoupling capacitor leaky/, part: "bypass-capacitor", in: "10 uF" },
  feedResistor: { cause: /plate resistor or feed/, part: "plate-resistor", in: "253 kohm" },
  gas: { cause: /tube gassy/, part: "tube", in: "6AQ5" },
};
export const atSupply: Readonly<Record<string, { readonly says: RegExp; readonly part: string; readonly in: string }>> = {
  siliconInPlaceOfTube: { says: /silicon in place of the rectifier tube/, part: "series-resistor", in: "270 ohm" },
  rectifierWeak: { says: /weak rectifier/, part: "rectifier", in: "5V4" },
  firstCapacitor: { says: /worn filter capacitor|lost its value/, part: "first-filter-capacitor", in: "47 uF" },
};
export const placeOf = (f: WorldFault): string =>
  Object.hasOwn(atSupply, f.fault) ? "supplies" : `stages.${(f.to ?? f.at ?? "").toLowerCase()}`;
export const ofStages = (w: World): readonly WorldFault[] =>
  w.truth.faults.filter((f) => Object.hasOwn(known, f.fault) && !/^A\d/.test(f.at ?? ""));
export const ofSupply = (w: World): readonly WorldFault[] => w.truth.faults.filter((f) => Object.hasOwn(atSupply, f.fault));
const nothing = { is: "", measured: "", rated: "" };
/** Mends as a person says it. */
export function mend(job: Played, said: Partial<MendSaid>): void {
  const whole = { part: "", place: "", label: "", out: nothing, came: nothing, dress: "", fault: "", note: "", now: {}, ...said };
  put(job, ...mending(job.view, whole, stamp()).entries);
}

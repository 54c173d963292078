import type { ChassisState } from "../ask/chassis";
import { safety as addresses } from "../set/addresses/safety";
import type { SetDescription } from "../set/describe";
import { lookUp } from "../set/paths";
import { hazardousDcV } from "../standards/cautions";
import { saysBypassDecided } from "../standards/line-bypass";
import { bondMostOhm, insulationLeastOhm, touchLimitOf } from "../standards/touch-current";
import type { Dimension } from "../units/dimensions";
import { own } from "../units/own";
import { printValue } from "../units/print";
import type { Entry } from "./document";
import { names, signatureWants } from "./said";

/** Least ohms from B+ to the chassis once the filter has charged. Common practice, no source. */
export const bPlusLeastOhm = 10e3;
/** Most that the running current may be over what the type plate says. Common practice, no source. */
const mostOfPlate = 1.3;
/** and how many times under it: a set that draws less is not wholly on. Common practice, no source. */
const mostUnderPlate = 4;

/** A job as far as its safety record goes. */
export interface Recorded {
  readonly inForce: readonly Entry[];
  readonly set: SetDescription;
  readonly chassis: ChassisState;
  /** why its last proof fell, where a fact was changed since */
  readonly chassisFell?: string;
  /** when the job was made: nothing of its record is older */
  readonly created: string;
}
export interface Written {
  readonly text: string;
  /** place among the entries in force */
  readonly place: number;
}
export type Card = (field: string) => Written | undefined;

/** One figure or word that a step's record must hold. */
export interface Demand {
  readonly field: string;
  /** dimension and unit of a bare figure, where it is a figure; its unit is printed in the field's name */
  readonly figure?: readonly [Dimension, string];
  /** what is wrong with it, in words; undefined where it holds */
  readonly fails?: (value: number, text: string) => string | undefined;
}
const figure = (field: string, dimension: Dimension, unit: string, fails: (v: number) => string | undefined): Demand => ({
  field,
  figure: [dimension, unit],
  fails,
});
/** Field of the safety card that says who read the page before opening, and when. */
export const pageSigned = "Page before opening read, signed";
const words = (field: string, fails?: (text: string) => string | undefined): Demand => ({
  field,
  ...(fails ? { fails: (_: number, text: string) => fails(text) } : {}),
});
const yes = (field: string, or = ""): Demand =>
  words(field, (t) =>
    /^(yes|done|ok|all)\b/i.test(t) || (or !== "" && t.toLowerCase().startsWith(or)) ? undefined : `yes${or ? ` or ${or}` : ""}`,
  );

export const insulationDemand = figure("Insulation line to chassis, MΩ", "resistance", "megohm", (v) =>
  v >= insulationLeastOhm.value ? undefined : `at least ${printValue(insulationLeastOhm.value, "resistance")}`,
);
const touchDemands = (set: SetDescription): Demand[] => {
  const limit = touchLimitOf(String(lookUp(set, addresses.touchLimit.address) ?? "0.5 mA"));
  return ["Touch current one way, mA", "Touch current other way, mA"].map((field) =>
    figure(field, "current", "mA", (v) => (v <= limit.ampere ? undefined : `${limit.name} at most`)),
  );
};
const named = (field: string, expected: string): Demand => words(field, (t) => (names(t) ? undefined : expected));
const signedOn = (created: string): Demand => words("Date and sign", (t) => signatureWants(t, created));
const signed = (created: string): readonly Demand[] => [named("Tester used", "the meter or tester by its name"), signedOn(created)];
const decided: readonly Demand[] = [
  named("Cord type", "the cord, such as three-wire, new"),
  words("Fuse rating and type", (t) =>
    /\d/.test(t) ? undefined : "a rating in A, such as 1 A slow: never switch a set on without a fuse",
  ),
];
const bypassDemand = words("Line bypass parts and class", (t) =>
  saysBypassDecided(t) ? undefined : "the part taken out, none fitted, or its class Y1, Y2 or Y4",
);
const bondDemand = figure("Bond, Ω", "resistance", "ohm", (v) =>
  v <= bondMostOhm.value ? undefined : `${printValue(bondMostOhm.value, "resistance")} at most`,
);

/** What power through a bulb must show. */
function firstPower({ set, created }: Recorded): readonly Demand[] {
  const line = set.line.today?.value ?? set.line.voltage.value * set.line.highRatio.value;
  const rated = set.plateWatts.value / set.line.voltage.value;
  const [least, most] = [rated / mostUnderPlate, rated * mostOfPlate];
  return [
    figure("Volts on the set behind the bulb, V", "voltage", "V", (v) =>
      v <= 0
        ? "more than 0 V: a bright bulb and no volts on the set means a dead short"
        : v <= line
          ? undefined
          : `at most the line, ${printValue(line, "voltage", 1)}`,
    ),
    figure("Current at full line, A", "current", "A", (v) =>
      v >= least && v <= most
        ? undefined
        : `${printValue(least, "current", least / 20)} to ${printValue(most, "current", most / 20)}, by the type plate`,
    ),
    words("Smoke, glow or smell", (t) => (/^(no|none)\b/i.test(t) ? undefined : "none: otherwise find the fault first")),
    ...signed(created),
  ];
}
/** Cord, fuse, line bypass and insulation: what keeps the line off the chassis. */
const offTheLine = ({ chassis }: Recorded): readonly Demand[] => [
  ...decided,
  bypassDemand,
  ...(chassis === "isolated" || chassis === "unstated" ? [insulationDemand] : []),
];
const goingOut = (job: Recorded, card: Card): readonly Demand[] => [
  ...offTheLine(job),
  ...touchDemands(job.set),
  ...(/three|3/.test(card("Cord type")?.text ?? "") ? [bondDemand] : []),
  yes("Strain relief"),
  yes("Knob screws covered"),
  yes("Connectors with B+ recessed", "none"),
  figure("Volts left after 10 s, V", "voltage", "V", (v) =>
    Math.abs(v) <= hazardousDcV.value ? undefined : `${hazardousDcV.value} V at most: fit or mend the bleeder`,
  ),
  ...signed(job.created),
];
const demands: Readonly<Record<string, readonly [card: string, of: (job: Recorded, card: Card) => readonly Demand[]]>> = {
  "02": ["safety-in", ({ created }) => [words(pageSigned, (t) => signatureWants(t, created))]],
  "03": ["safety-in", (job) => [...offTheLine(job), ...signed(job.created)]],
  "04": [
    "safety-in",
    ({ created }) => [
      figure("B+ to chassis once settled, kΩ", "resistance", "kohm", (v) =>
        v >= bPlusLeastOhm ? undefined : `at least ${printValue(bPlusLeastOhm, "resistance")}`,
      ),
      ...signed(created),
    ],
  ],
  "08": ["first-power", firstPower],
  "35": ["safety-out", goingOut],
  "36": [
    "handover",
    ({ created }) => [
      named("What was done", "what was done, in words"),
      named("Warnings given", "the warnings that the owner was given"),
      words("Signature and date", (t) => signatureWants(t, created)),
    ],
  ],
};
/** The card that holds a step's record. */
export const recordCardOf = (step: string): string | undefined => own(demands, step)?.[0];

/**
 * What a step's record must hold.
 *
 * @param job entries in force, the set, and the chassis as proved
 * @param step number of the step
 * @param card what its card holds, by field
 * @returns demands in the order of the card; none for a step without a record
 * @source limits of touch-current.ts; the others are common practice, no source
 */
export const demandsOf = (job: Recorded, step: string, card: Card): readonly Demand[] => own(demands, step)?.[1](job, card) ?? [];

import type { ChassisState } from "../ask/chassis";
import { safety as addresses } from "../set/addresses/safety";
import type { SetDescription } from "../set/describe";
import { lookUp } from "../set/paths";
import { hazardousDcV } from "../standards/cautions";
import { bondMostOhm, insulationLeastOhm, touchLimitOf } from "../standards/touch-current";
import type { Dimension } from "../units/dimensions";
import type { Issue } from "../units/issue";
import { parseQuantity } from "../units/parse";
import { printValue } from "../units/print";
import type { Entry } from "./document";
import { isFromElsewhere } from "./format";
import { names, signatureWants } from "./said";

/**
 * What proves the steps that can kill: measured values on the safety cards, with meter and date, within their limits, and none older than work that
 * touched them. Nothing else proves them, on no face. Limits: touch-current.ts; the others are common practice, no source.
 */

/** Least ohms from B+ to the chassis once the filter has charged. Common practice, no source. */
export const bPlusLeastOhm = 10e3;
/** Most that the running current may be over what the type plate says. Common practice, no source. */
const mostOfPlate = 1.3;
/** and how many times under it: a set that draws less is not wholly on. Common practice, no source. */
const mostUnderPlate = 4;

/** Steps that are proved by their record and by nothing else. */
export const recordedSteps = ["02", "03", "04", "08", "35", "36"] as const;

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
interface Written {
  readonly text: string;
  /** place among the entries in force */
  readonly place: number;
}
type Card = (field: string) => Written | undefined;

/** What a card holds, field by field, with the place of the entry that wrote it last; a field emptied, or brought in from elsewhere, holds nothing. */
function cardOf(inForce: readonly Entry[], id: string): Card {
  const out = new Map<string, Written>();
  inForce.forEach((e, place) => {
    if (e.kind !== "form" || e.form !== id || isFromElsewhere(e)) return;
    for (const [field, text] of Object.entries(e.fields)) out.set(field, { text: text.trim(), place });
  });
  return (field) => {
    const w = out.get(field);
    return w && w.text !== "" ? w : undefined;
  };
}
/** Place of the last work in force that made a step due; -1 for none. */
function touchedAt(inForce: readonly Entry[], step: string): number {
  return inForce.reduce((last, e, i) => (e.kind === "work" && e.makes.some((d) => d.target === step) ? i : last), -1);
}

/** One figure or word that a step's record must hold. */
interface Demand {
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

const insulationDemand = figure("Insulation line to chassis, MΩ", "resistance", "megohm", (v) =>
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
    /\d/.test(t) ? undefined : "a rating in A, such as 1 A slow: no set is switched on without a fuse",
  ),
];
const bypassDemand = words("Line bypass parts and class", (t) =>
  /\b(none|out|removed|taken out|Y[124])\b/i.test(t) ? undefined : "the part taken out, none fitted, or its class Y1, Y2 or Y4",
);
const bondDemand = figure("Bond, Ω", "resistance", "ohm", (v) =>
  v <= bondMostOhm.value ? undefined : `${printValue(bondMostOhm.value, "resistance")} at most`,
);

/** Card and demands of a step; nothing where the step has no record. */
function demandsOf(job: Recorded, step: string, card: Card): { readonly card: string; readonly demands: readonly Demand[] } | undefined {
  const { set, chassis, created } = job;
  switch (step) {
    case "02":
      return {
        card: "safety-in",
        demands: [words(pageSigned, (t) => signatureWants(t, created))],
      };
    case "03":
      return {
        card: "safety-in",
        demands: [
          ...decided,
          bypassDemand,
          ...(chassis === "isolated" || chassis === "unstated" ? [insulationDemand] : []),
          ...signed(created),
        ],
      };
    case "04":
      return {
        card: "safety-in",
        demands: [
          figure("B+ to chassis once settled, kΩ", "resistance", "kohm", (v) =>
            v >= bPlusLeastOhm ? undefined : `at least ${printValue(bPlusLeastOhm, "resistance")}`,
          ),
          ...signed(created),
        ],
      };
    case "08": {
      const line = set.line.today?.value ?? set.line.voltage.value * set.line.highRatio.value;
      const rated = set.plateWatts.value / set.line.voltage.value;
      const [least, most] = [rated / mostUnderPlate, rated * mostOfPlate];
      return {
        card: "first-power",
        demands: [
          figure("Volts on the set behind the lamp, V", "voltage", "V", (v) =>
            v <= 0
              ? "more than 0 V: the bulb at full glow and nothing on the set is a dead short"
              : v <= line
                ? undefined
                : `at most the line, ${printValue(line, "voltage", 1)}`,
          ),
          figure("Current at full line, A", "current", "A", (v) =>
            v >= least && v <= most
              ? undefined
              : `${printValue(least, "current", least / 20)} to ${printValue(most, "current", most / 20)}, by the type plate`,
          ),
          words("Smoke, glow or smell", (t) => (/^(no|none)\b/i.test(t) ? undefined : "none: else the fault is found first")),
          ...signed(created),
        ],
      };
    }
    case "35":
      return {
        card: "safety-out",
        demands: [
          ...decided,
          bypassDemand,
          ...(chassis === "isolated" || chassis === "unstated" ? [insulationDemand] : []),
          ...touchDemands(set),
          ...(/three|3/.test(card("Cord type")?.text ?? "") ? [bondDemand] : []),
          yes("Strain relief"),
          yes("Knob screws covered"),
          yes("Connectors with B+ recessed", "none"),
          figure("Volts left after 10 s, V", "voltage", "V", (v) =>
            Math.abs(v) <= hazardousDcV.value ? undefined : `${hazardousDcV.value} V at most: fit or mend the bleeder`,
          ),
          ...signed(created),
        ],
      };
    case "36":
      return {
        card: "handover",
        demands: [
          named("What was done", "what was done, in words"),
          named("Warnings given", "the warnings that the owner was given"),
          words("Signature and date", (t) => signatureWants(t, created)),
        ],
      };
    default:
      return undefined;
  }
}

const cards: Readonly<Record<string, string>> = { "35": "safety-out", "08": "first-power", "36": "handover" };

/**
 * Whether a safety card, coming in or going out, holds an insulation that fails: whatever was proved before, the line is on the chassis.
 *
 * @param inForce entries in force
 * @returns true where it fails
 * @source limit of touch-current.ts
 */
export function insulationFails(inForce: readonly Entry[]): boolean {
  return ["safety-in", "safety-out"].some((id) => {
    const written = cardOf(inForce, id)(insulationDemand.field);
    const ohm = written && readFigure(written.text, ["resistance", "megohm"], insulationDemand.field);
    return typeof ohm === "number" && ohm < insulationLeastOhm.value;
  });
}

/** Fields of the safety cards that hold a figure, with the dimension and unit of a bare one: judged as they are written. */
const figureFields: Readonly<Record<string, readonly [Dimension, string]>> = {
  "Insulation line to chassis, MΩ": ["resistance", "megohm"],
  "B+ to chassis once settled, kΩ": ["resistance", "kohm"],
  "Bond, Ω": ["resistance", "ohm"],
  "Touch current one way, mA": ["current", "mA"],
  "Touch current other way, mA": ["current", "mA"],
  "Volts left after 10 s, V": ["voltage", "V"],
  "Line, V": ["voltage", "V"],
  "Volts on the set behind the lamp, V": ["voltage", "V"],
  "B+ behind the lamp, V": ["voltage", "V"],
  "Current at full line, A": ["current", "A"],
};
/**
 * What is wrong with the figures of a safety card as they are written: none that can be read, or one under nought.
 *
 * @param fields of the card, as written
 * @returns an issue for each, at its field
 * @source house frame
 */
export const figureIssues = (fields: Readonly<Record<string, string>>): Issue[] =>
  Object.entries(fields).flatMap(([field, text]) => {
    const figure = Object.hasOwn(figureFields, field) ? figureFields[field] : undefined;
    if (!figure || text.trim() === "") return [];
    const value = readFigure(text.trim(), figure, field);
    if (typeof value === "string") return [{ path: field, code: "unreadable", read: text, expected: value }];
    return value < 0 ? [{ path: field, code: "negative", read: text, expected: "nought or more" }] : [];
  });

/** A figure of a card as SI; the unit of a bare one is the one printed in the field's name. */
function readFigure(text: string, [dimension, unit]: readonly [Dimension, string], field: string): number | string {
  const r = parseQuantity(/^[<>~]?\s*[\d.,]+$/.test(text) ? `${text.replace(/^[<>~]\s*/, "")} ${unit}` : text, dimension, field);
  return r.ok ? r.value.value : r.issues[0].expected;
}

/**
 * What a step's own record lacks, fails, or holds from before work that touched it. Nothing where it holds, and for steps without a record.
 *
 * @param job entries in force, the set, and the chassis as proved
 * @param step number of the step
 * @returns an issue for each field, at its place
 * @source limits of touch-current.ts and of this file
 */
export function recordIssues(job: Recorded, step: string): Issue[] {
  const id = cards[step] ?? "safety-in";
  const card = cardOf(job.inForce, id);
  const wanted = demandsOf(job, step, card);
  if (!wanted) return [];
  const touched = touchedAt(job.inForce, step);
  const out: Issue[] = [];
  const put = (field: string, code: string, read: string, expected: string): void => {
    out.push({ path: `${wanted.card} card, ${field}`, code, read, expected });
  };
  if (step === "03" || step === "35")
    if (job.chassis !== "isolated" && job.chassis !== "live-proved-dead")
      out.push({
        path: "chassis",
        code: "chassis-not-proved",
        needs: "chassis",
        read: job.chassis,
        expected: `to be proved isolated, or live and dead behind an isolation transformer, by what was measured${job.chassisFell ? `, anew: ${job.chassisFell}` : ""}`,
      });
  for (const d of wanted.demands) {
    const written = card(d.field);
    if (!written) {
      put(d.field, "not-measured", "", d.figure ? "a measured value" : "an entry");
      continue;
    }
    if (written.place < touched) put(d.field, "older-than-work", written.text, "a value from after the work that touched it");
    const value = d.figure ? readFigure(written.text, d.figure, d.field) : 0;
    if (typeof value === "string") {
      put(d.field, "unreadable", written.text, value);
      continue;
    }
    const fails = d.fails?.(value, written.text);
    if (fails) put(d.field, "fails", written.text, fails);
  }
  return out;
}

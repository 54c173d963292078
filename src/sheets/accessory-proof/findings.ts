import { practice } from "../../ask/declare";
import { addressAt } from "../../set/addresses";
import { hazardousDcV } from "../../standards/cautions";
import { upperFirst } from "../../units/sentence";
import type { Asked, G, Put } from "./ask";
import { isFed, lacking } from "./solve";

/** How far a state may be off. Common practice, no source, but for volts. */
const most = { leftDb: 1, withDb: 3, width: 0.1, fall: 0.05, heater: 0.1, pullHz: 100, connectorV: 1 } as const;
type Verdict = "yes" | "no" | "open";
type Name = keyof G["figures"];

interface Judged {
  readonly result: Name;
  readonly holds: Verdict;
  /** what holds, or does not */
  readonly says: string;
  readonly todo: string;
  readonly open?: true;
}
/** A reading as a person calls it. */
const inWords = (name: string): string => addressAt(`fittings.any.${name}`)?.meaning ?? name;
const isRead = (g: G, n: Name): boolean => g.figures[n].low !== null;

/** What was read in both states, each against how far it may be off. */
function judged(g: G): Judged[] {
  const x = g.best;
  const own: (readonly [Name, (y: Readonly<Record<Name, number>>) => boolean, string, string, true?])[] = [
    [
      "connector",
      (y) => Math.abs(y.connector) <= most.connectorV,
      `the connector is at ${g.say("connector")} with nothing plugged in (up to ${most.connectorV} V means a sound series capacitor; ${hazardousDcV.value} V counts as hazardous)`,
      "Switch off, unplug, discharge, MEASURE. The series capacitor leaks: replace it before anything is plugged in again.",
      true,
    ],
    [
      "gainLeft",
      (y) => Math.abs(y.gainLeft) <= most.leftDb,
      `without the accessory the gain has changed by ${g.say("gainLeft")} (allowed: up to ${most.leftDb} dB)`,
      "Accessory unplugged: the first primary back on its peak, and nothing left hanging on the connector. The accessory's own coil has to tune out its cable.",
      true,
    ],
    [
      "widthLeft",
      (y) => Math.abs(y.widthLeft) <= most.width,
      `without it the pass band's width is off by ${g.say("widthLeft")} (allowed: up to ${most.width * 100} %)`,
      "Sweep the strip with the accessory unplugged, and set the first can on its centre again.",
      true,
    ],
    [
      "beyond",
      (y) => Math.abs(y.beyond) <= most.withDb,
      `with it the gain changes by ${g.say("gainWith")}, ${g.say("beyond")} off what was stated (allowed: up to ${most.withDb} dB)`,
      "Set it again, step by step, on a steady carrier; then its tubes and its capacitors.",
    ],
    [
      "bPlusFall",
      (y) => y.bPlusFall <= most.fall,
      `with it B+ falls by ${g.say("bPlusFall")} (allowed: up to ${most.fall * 100} %)`,
      "The sheet on the receiver's supply tells you what draws too much; or give the accessory a supply of its own.",
    ],
    [
      "heaterOff",
      (y) => Math.abs(y.heaterOff) <= most.heater,
      `with it the heaters are ${g.say("heaterOff")} off their rated volts (allowed: up to ${most.heater * 100} %, a maker's sheet, read)`,
      "Read the line first. Too low with the accessory alone: a heater transformer of its own.",
    ],
    [
      "pull",
      (y) => y.pull <= most.pullHz,
      `it pulls the receiver's tuning by ${g.say("pull")} (allowed: up to ${most.pullHz} Hz)`,
      "Looser coupling, a shielded lead, or its supply taken from a point that the oscillator does not share.",
    ],
  ];
  return own
    .filter(([n]) => isRead(g, n) && (isFed(x) || (n !== "bPlusFall" && n !== "heaterOff")))
    .map(([result, test, says, todo, open]) => ({ result, holds: g.verdict((_, y) => test(y)), says, todo, ...(open ? { open } : {}) }));
}

/**
 * Whether both states are proved.
 *
 * @param g inputs, figures and verdicts
 * @returns the sentence
 * @source house frame
 */
export function headlineOf(g: G): string {
  const all = judged(g);
  const lacks = lacking(g.best).length;
  const wrong = all.filter((j) => j.holds === "no");
  const open = all.filter((j) => j.holds === "open");
  if (wrong.length > 0) return `Not proved: ${wrong.map((j) => j.says).join("; ")}.`;
  if (lacks > 0) return `Not proved yet: ${lacks} ${lacks === 1 ? "reading is" : "readings are"} still missing from the two states.`;
  if (open.length > 0) return `Too close to call: ${open.map((j) => j.says).join("; ")}.`;
  return "Both states are proved: without the accessory the receiver is as it was, with it as stated.";
}

/**
 * Each reading of both states, and what is still to be read.
 *
 * @param g inputs, figures and verdicts
 * @param put takes each finding
 * @source limits: common practice, no source
 */
export function findingsOf(g: G, put: Put): void {
  const x = g.best;
  if (isRead(g, "connector") && Math.abs(x.connectorRead ?? 0) > hazardousDcV.value)
    put("proof-connector-live", "danger", `The accessory's connector carries ${g.say("connector")}: a touch can kill.`, {
      do: "Unplug the set, discharge, MEASURE. Nothing is plugged in, and nobody touches that connector, until the series capacitor is replaced and the volts read again.",
      restsOn: ["connector"],
      state: "open-dead",
    });
  for (const j of judged(g))
    put(
      `proof-${j.result}-${j.holds}`,
      j.holds === "yes" ? "note" : j.holds === "no" ? "act" : "check",
      `${upperFirst(j.says)}; ${practice}.`,
      {
        ...(j.holds === "yes" ? {} : { do: j.todo, ...(j.open ? { state: "open-live" as const } : {}) }),
        restsOn: [j.result],
      },
    );
  const missing = lacking(x);
  if (missing.length === 0) return;
  aboutMissing(x, missing, put);
}
function aboutMissing(x: Asked, missing: readonly string[], put: Put): void {
  put(
    "proof-order",
    "act",
    `Still to be read: ${missing.map(inWords).join("; ")}. One sitting, one line, one generator: only what changes between two readings counts.`,
    {
      do: `Without first: accessory unplugged, all warm, ${x.kind === "converter" ? "on the range that the converter works into" : "on a middle band"}. Then switch off, unplug, discharge, MEASURE; plug it in; warm again, with. Last, without it once more: the first reading must come back.`,
      restsOn: ["toRead"],
      state: "open-dead",
    },
  );
  if (missing.includes("levelBefore"))
    put(
      "proof-no-before",
      "check",
      "Nobody read the gain before it was fitted, or it is not on record: without that, the receiver's own chart or the record of its performance is all that says how it was.",
      { restsOn: ["gainLeft"] },
    );
}

import { practice } from "../../ask/declare";
import type { Part } from "../../ask/findings";
import { nextFuseA, nextPreferred } from "../../standards/preferred";
import { rectifierByType } from "../../standards/rectifiers";
import { printValue } from "../../units/print";
import type { Asked, G, Put } from "./ask";
import { isFed } from "./solve";
import { aboutHeaters, heatersHold, ratingHolds } from "./warmth";

/** B+ may stand a tenth off in a set; an accessory that takes more than half of that leaves no room for the line. Common practice, no source. */
const mostFallShare = 0.05;
const word = { yes: "can carry", no: "can't carry", open: "may or may not carry" } as const;

const bPlusHolds = (g: G) => g.verdict((_, y) => y.fall <= mostFallShare * y.without);
const inString = (x: Asked): boolean => isFed(x) && x.heaters === "series" && x.heaterCurrent > 0;

/**
 * Whether the receiver can carry it, in short.
 *
 * @param g inputs, figures and verdicts
 * @returns the sentence
 * @source house frame
 */
export function headlineOf(g: G): string {
  const x = g.best;
  if (!isFed(x)) return `The accessory runs from ${x.powerFrom}: it takes nothing from the receiver.`;
  const bPlus = `B+ at the tap falls by ${g.about("fall")} of ${g.about("without")}`;
  if (inString(x)) return `This receiver's heaters are in a string: it can't heat the accessory's tubes. ${bPlus}.`;
  const all = [bPlusHolds(g), heatersHold(g), ratingHolds(g) ?? "yes"];
  const verdict = all.includes("no") ? "no" : all.includes("open") ? "open" : "yes";
  return `The receiver's supply ${word[verdict]} the accessory: ${bPlus}; the heaters get ${g.about("heaterWith")} with it.${x.heaterRating === undefined ? " The heater winding's rating is not known." : ""}`;
}

/**
 * What it does to B+, ripple, rectifier, heaters and transformer, and how that is proved.
 *
 * @param g inputs, figures and verdicts
 * @param put takes each finding
 * @source limits beside each; steps: common practice, no source
 */
export function findingsOf(g: G, put: Put): void {
  if (!isFed(g.best)) {
    ownSupply(g, put);
    return;
  }
  if (g.best.chassis.startsWith("live")) liveSet(put);
  aboutBPlus(g, put);
  aboutRectifier(g, put);
  aboutHeaters(g, put);
  aboutCold(g, put);
  aboutReadings(g, put);
}
function ownSupply({ best: x }: G, put: Put): void {
  put(
    "power-own",
    "check",
    x.powerFrom === "a battery"
      ? "A battery joins the accessory to nothing but the receiver: only its signal lead is left to judge."
      : "Its own supply is a second line cord on the bench: its line bypass, fuse and chassis need the same checks as the receiver's.",
    {
      do: "Unplug both: ohms from each blade of its plug to its chassis, its line capacitor out or of class Y2, its fuse in the hot wire. Join the two chassis only once both are proved isolated. Local code prevails.",
      restsOn: ["noLoad"],
      hazards: ["line", "b-plus", "stored-charge"],
    },
  );
}
function liveSet(put: Put): void {
  put(
    "power-live-set",
    "danger",
    "This chassis is connected to the line: an accessory fed from it is at line voltage too, case, knobs, cable and all.",
    {
      do: "Unplug the set. Feed nothing from it: give the accessory a battery, or an isolated supply of its own. Local code prevails.",
      hazards: ["live-chassis", "line", "b-plus", "stored-charge"],
    },
  );
}
function aboutBPlus(g: G, put: Put): void {
  const holds = bPlusHolds(g);
  put(
    `power-b-plus-${holds}`,
    holds === "yes" ? "note" : holds === "no" ? "act" : "check",
    `The accessory pulls B+ at its tap from ${g.say("without")} to ${g.say("with")}, by ${g.say("fall")}: the source resistance there is ${g.say("sourceResistance")}. Up to 5 % is taken as harmless, ${practice}. Ripple goes from ${g.say("rippleWithout")} to ${g.say("rippleWith")}.`,
    {
      ...(holds === "yes"
        ? {}
        : {
            do: "Unplugged, discharged and measured: take its B+ from a point nearer to the rectifier, through a resistor of its own and its own capacitor; or give it a supply of its own. Then read B+ again, without it and with it.",
          }),
      restsOn: ["without", "with", "fall", "sourceResistance", "rippleWithout", "rippleWith"],
    },
  );
  if (g.best.supplyVolts !== undefined && (g.figures.dropping.value ?? 0) > 0)
    put(
      "power-dropping",
      "act",
      `The accessory is made for ${printValue(g.best.supplyVolts, "voltage")}: ${g.say("dropping")} brings B+ down to that, and ${g.say("droppingHeat")} becomes heat in it.`,
      {
        do: "Unplugged, discharged and measured: fit it at the tap inside the receiver, so that the lead carries the lower volts once all is warm; rate it for twice that heat. While the accessory is cold the lead still carries full B+.",
        restsOn: ["dropping", "droppingHeat"],
        hazards: ["b-plus", "line", "stored-charge", "heat"],
      },
    );
}
function aboutRectifier(g: G, put: Put): void {
  const x = g.best;
  const row = rectifierByType(x.rectifierType);
  const limits = [row?.dcA, x.directRating].filter((a) => a !== undefined);
  const least = limits.length > 0 ? Math.min(...limits) : undefined;
  if (least === undefined) {
    put(
      "power-direct-unknown",
      "check",
      `Together they draw ${g.say("direct")}; what transformer and rectifier are rated for is not known.`,
      {
        do: "Look in the service sheet, or on the transformer, for its rated B+ current. Until then, judge by how warm it is after an hour.",
        restsOn: ["direct"],
        state: "desk",
      },
    );
    return;
  }
  const over = g.verdict((_, y) => y.direct > least);
  put(
    `power-direct-${over}`,
    over === "yes" ? "act" : over === "open" ? "check" : "note",
    `Together they draw ${g.say("direct")}, of the ${printValue(least, "current")} that ${row?.dcA === least ? `a ${row.type} is good for (${row.seen})` : "the transformer is rated for"}; each plate peaks at ${g.say("peak")}.`,
    {
      ...(over === "no" ? {} : { do: "Give the accessory a supply of its own, or find what draws too much in the receiver first." }),
      restsOn: ["direct", "peak"],
      state: "desk",
    },
  );
}
function aboutCold(g: G, put: Put): void {
  const x = g.best;
  put(
    "power-cold",
    "act",
    `While its tube is cold, or out, its lead and every capacitor on it are at ${g.say("noLoad")}, not at the running volts.`,
    {
      do: `Unplugged, discharged and measured: every capacitor in the accessory that sees B+ rated ${g.rating.says}; a shrouded socket on the receiver, never pins; a fuse of ${printValue(nextFuseA(Math.max(0.05, 2 * x.supplyCurrent)), "current")} in the B+ lead, inside the receiver. Plug and unplug only with the set off, discharged and measured.`,
      restsOn: ["noLoad"],
    },
  );
}
/** Both states read, and what the fall says; or the readings asked for. */
function aboutReadings(g: G, put: Put): void {
  const x = g.best;
  if (x.tapWithout === undefined || x.tapWith === undefined) {
    put("power-read", "act", `Not proved yet: expect ${g.say("without")} at the tap without the accessory, and ${g.say("with")} with it.`, {
      do: "Clip on at the tap with the set off, discharged and measured. Read B+ and heater volts at one line: all warm without the accessory; off, unplug, discharge, MEASURE, plug it in; all warm with it. Record both.",
      restsOn: ["without", "with", "fall"],
    });
    return;
  }
  const more = g.verdict((i, y) => y.drawnByFall > 2 * i.supplyCurrent);
  const less = g.verdict((i, y) => y.drawnByFall < 0.4 * i.supplyCurrent);
  const held = more !== "yes" && less !== "yes";
  put(
    more === "yes" ? "power-draws-more" : less === "yes" ? "power-draws-less" : "power-draws-as-said",
    held ? "note" : "act",
    `By the measured fall it draws ${g.say("drawnByFall")}${held ? ", as it should, as far as a meter can tell" : more === "yes" ? ": far more than it should. A leaky capacitor, a gassy tube or a wrong resistor in the accessory does that" : ": far less than it should. A tube that doesn't run, an open resistor or no B+ at it does that"}.`,
    {
      ...(held
        ? {}
        : {
            do: "Switch off, unplug, discharge, MEASURE; accessory unplugged: ohms from its B+ pin to its case, once settled; then its capacitors, on a sheet of their own.",
          }),
      restsOn: ["drawnByFall"],
    },
  );
}

/**
 * What feeding it takes to buy.
 *
 * @param g inputs and figures
 * @returns parts
 * @source preferred values; ratings: common practice, no source
 */
export function partsOf(g: G): Part[] {
  const { dropping, droppingHeat } = g.figures;
  if (!isFed(g.best) || dropping.value === null) return [];
  const watts = [0.5, 1, 2, 3, 5, 10].find((w) => w >= 2 * (droppingHeat.high ?? 0)) ?? 25;
  return [
    {
      part: "resistor in the accessory's B+ lead",
      was: "",
      value: printValue(nextPreferred(dropping.value, 12), "resistance"),
      rating: printValue(watts, "power"),
      kind: "flameproof",
      quantity: 1,
      why: "brings B+ down to what the accessory is made for",
    },
  ];
}

import type { NoValue } from "../../ask/results";
import { printValue } from "../../units/print";
import type { Asked, G, Put } from "./ask";

/** What may be lost by being off, dB: what an S meter just shows. Common practice, no source. */
const mostLostDb = 1;
/** How uneven the -6 dB points may lie about the carrier: the strip's own limit in alignment. Common practice, no source. */
const mostUneven = 0.1;
const isRead = (x: Asked): boolean => x.beat !== undefined;
/** Whether a nose that loses so much at the carrier, its -6 dB points so uneven, is off its centre; what has no value is not. Source: house rule. */
export const isOffCentre = (lost: number | NoValue, uneven: number | NoValue): boolean =>
  (typeof lost === "number" && lost > mostLostDb) || (typeof uneven === "number" && uneven > mostUneven);
const centred = (g: G) => g.verdict((_, y) => y.lost <= mostLostDb && y.uneven <= mostUneven);
const word = { yes: "It is centred", no: "It is off centre", open: "It may be off centre" } as const;

/**
 * Whether it is centred; or what the way there looks like.
 *
 * @param g inputs, figures and verdicts
 * @returns the sentence
 * @source house frame
 */
export function headlineOf(g: G): string {
  if (isRead(g.best))
    return `${word[centred(g)]}: the peak is ${g.about("offCentre")} off the carrier, and ${g.about("lost")} is lost there.`;
  return `No centring is on record yet. With the cable on the carrier falls by up to ${g.about("unitsLost")} S units; with its coil tuned the gain is ${g.about("coilTuned")} against without, with the tank at this regeneration ${g.about("tankSet")}.`;
}

/**
 * The steps of setting it, each with what ear and meter should say; and what the note says once it was heard.
 *
 * @param g inputs, figures and verdicts
 * @param put takes each finding
 * @source order: two manuals of Q multipliers, read; what to expect: computed
 */
export function findingsOf(g: G, put: Put): void {
  if (isRead(g.best)) aboutNote(g, put);
  before(put);
  joining(g, put);
  onTheTank(g, put);
  after(g, put);
}
function aboutNote(g: G, put: Put): void {
  const held = centred(g);
  const side = g.best.side;
  put(
    `centre-note-${held}`,
    held === "yes" ? "note" : held === "no" ? "act" : "check",
    `By its note the peak is ${g.say("offCentre")} off the carrier${side === "unknown" ? ", on which side nobody has said" : ""}; ${g.say("lost")} is lost at the carrier; the -6 dB points lie ${g.say("uneven")} uneven about it. Up to ${mostLostDb} dB and ${mostUneven * 100} % are good.`,
    {
      ...(held === "yes"
        ? {}
        : {
            do: `Carrier tuned as it is, regeneration just past its start: turn the accessory's tuning until the note goes down to nothing${side === "high" ? ", toward more capacitance" : side === "low" ? ", toward less capacitance" : ""}. Then turn regeneration back until it is quiet.`,
          }),
      restsOn: ["offCentre", "lost", "uneven"],
    },
  );
}
/** Without the accessory: the carrier, and the can that it will hang on. */
function before(put: Put): void {
  put("centre-1-carrier", "act", "First without the accessory, all of it warm for half an hour: the carrier says where the IF is.", {
    do: "Accessory unplugged. AM, AVC on, BFO off, widest selectivity; a steady carrier of S5 to S8, daytime and not fading, or a weak generator. Tune for maximum on the S meter, write it down, and leave the tuning alone from here on. Ear: the hiss is quietest there.",
  });
  put("centre-2-can", "act", "The first primary must be on its peak before anything hangs on it, or the accessory gets the blame.", {
    do: "Insulated tool, its place marked first: a hair each way, and the meter falls the same both ways. If it rises, peak it, and write down by how much it rose. Never force a slug.",
    state: "open-live",
  });
}
function joining(g: G, put: Put): void {
  put(
    "centre-3-join",
    "act",
    `With the cable on and its coil not tuned yet, the meter falls by up to ${g.say("unitsLost")} S units: ${g.say("cableAlone")}. Ear: the station sinks, the hiss with it.`,
    {
      do: "Switch off, unplug, discharge, MEASURE. With the series capacitor judged sound, join the cable at the mixer plate and plug in; covers as they will be. On again, warm: read the meter. If nothing falls, the lead is open; if all is dead, switch off: it is shorted.",
      restsOn: ["cableAlone", "unitsLost"],
      state: "open-dead",
    },
  );
  put(
    "centre-4-coil",
    "act",
    `The coil first, tank switched off or regeneration at zero and its tuning at an end: the meter comes back, and the gain is ${g.say("coilTuned")} against without. It is sharp: ${g.say("coilThreeDb")} of its inductance costs 3 dB.`,
    {
      do: "Turn the accessory's coil for the cable until the carrier is back, and past it and back again. The receiver's can stays where it is: it is the reference. If the coil runs to its stop, cable or coil is wrong.",
      restsOn: ["coilTuned", "coilThreeDb"],
      state: "open-live",
    },
  );
}
function onTheTank(g: G, put: Put): void {
  const x = g.best;
  put(
    "centre-5-tank",
    "act",
    `Then the tank. Switched to peak with no regeneration, the gain is ${g.say("tankOff")} against without; at ${printValue(x.regeneration, "fraction")} of the oscillation point it is ${g.say("tankSet")}, and the nose ${g.say("widthSet")} wide.`,
    {
      do: "Regeneration low, its panel tuning at mid: turn its tank until the carrier peaks. Meter: one clear peak. Ear: the station turns dull, the hiss turns into a pitch of its own, which slides as you tune; on the carrier it is deepest. Raise regeneration a little, touch up, and again.",
      restsOn: ["tankOff", "tankSet", "widthSet"],
      state: "open-live",
    },
  );
  put(
    "centre-6-note",
    "act",
    "Zero beat shows the centre better than any peak: just past its start the accessory is a small oscillator at its own frequency.",
    {
      do: "Regeneration up until it whistles against the carrier. Turn its tuning for zero beat: the note goes down to nothing, and the meter flutters slowly, then steadies. Write down the note that is left, and on which side of the carrier it lies. Turn regeneration back until it falls quiet.",
      restsOn: ["offCentre"],
    },
  );
}
function after(g: G, put: Put): void {
  put(
    "centre-7-can",
    "act",
    `Last, the first primary once more, with the cable on: that gets back ${g.say("retouched")}. More than that, and the coil was not on its peak.`,
    {
      do: "Insulated tool: a hair each way for maximum on the meter, that core alone, and the coil of the accessory once more after it. The other cans stay as they are.",
      restsOn: ["retouched"],
      state: "open-live",
    },
  );
  put(
    "centre-8-without",
    "act",
    `Then without it: after that touch-up ${g.say("leftWithout")} is what may be missing with the accessory unplugged.`,
    {
      do: "Switch off, unplug, discharge, MEASURE; the accessory off its socket. On, warm, the same carrier: the meter reads what it read at first. If it is more than half an S unit lower, put the can back where it was and let the coil do it. Both states go on record, on the sheet “Without the accessory and with it”.",
      restsOn: ["leftWithout"],
      state: "open-dead",
    },
  );
}

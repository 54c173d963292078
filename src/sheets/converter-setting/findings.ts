import { practice } from "../../ask/declare";
import { printValue } from "../../units/print";
import type { G, Put } from "./ask";
import { crystalReadHz, isAbove, mostGainDb } from "./solve";

/** How much more than by its circuits an end may be read to lose before the input is off its peak, dB. Common practice, no source. */
const mostMoreDb = 2;
const mhz = (v: number): string => printValue(v, "frequency", 500);

const isHeard = (g: G): boolean => crystalReadHz(g.best) !== undefined;
const isGood = (g: G) => g.verdict((x, y) => Math.abs(y.crystalOff) <= x.crystalWanted);
const gainVerdict = (g: G) => g.verdict((_, y) => y.gain <= mostGainDb);
const isGainRead = (g: G): boolean => g.figures.gain.low !== null;

/**
 * Crystal, ends and gain.
 *
 * @param g inputs, figures and verdicts
 * @returns the sentence
 * @source house frame
 */
export function headlineOf(g: G): string {
  const crystal = isHeard(g)
    ? `The converter's crystal is off by ${g.about("crystalOff")}${isGood(g) === "yes" ? ", which is good enough" : ""}.`
    : "Nobody has heard a known signal through the converter yet.";
  const gain = isGainRead(g) ? ` Its gain is ${g.about("gain")}${gainVerdict(g) === "no" ? ", more than the receiver can use" : ""}.` : "";
  return `${crystal} Peaked at ${g.about("peakAt")}, the band's ends lose ${g.about("endsLoss")}.${gain}`;
}

/**
 * What the readings say, then the steps of setting it, each with what ear and meter should say.
 *
 * @param g inputs, figures and verdicts
 * @param put takes each finding
 * @source order and limits: common practice, no source; what to expect: computed
 */
export function findingsOf(g: G, put: Put): void {
  if (isHeard(g)) aboutCrystal(g, put);
  aboutEnds(g, put);
  if (isGainRead(g)) aboutGain(g, put);
  before(g, put);
  trimming(g, put);
  peaking(g, put);
  leaving(put);
}
function aboutCrystal(g: G, put: Put): void {
  const good = isGood(g);
  const x = g.best;
  if (good === "yes") {
    put("converter-crystal-yes", "note", `The crystal is off by ${g.say("crystalOff")}: good enough, leave its trimmer alone.`, {
      restsOn: ["crystalOff"],
    });
    return;
  }
  const beyond = g.verdict((i, y) => !(Math.abs(y.trimmerChange) <= i.pullTravel));
  const high = (g.figures.crystalOff.value ?? 0) > 0;
  const reach = `From where it is the trimmer can ${high ? `lower it by ${g.about("lowersBy")}` : `raise it by ${g.about("raisesBy")}`}`;
  if (beyond === "yes")
    put("converter-crystal-beyond", "act", `The crystal is off by ${g.say("crystalOff")}, more than its trimmer pulls. ${reach}.`, {
      do: `Switched off, unplugged, discharged and measured: ${high ? "fit a fixed capacitor of a few pF across the trimmer" : "take out what is fixed across the trimmer, or put a capacitor in series with it"}. If it hardly moves, fit another crystal; until then write the error that is left on the converter's card.`,
      restsOn: ["crystalOff", "lowersBy", "raisesBy"],
      state: "open-dead",
    });
  else
    put(
      `converter-crystal-${good}`,
      good === "no" ? "act" : "check",
      `The crystal is off by ${g.say("crystalOff")} (${g.say("crystalError")}); ${printValue(x.crystalWanted, "frequency")} is good enough. Its trimmer must change by ${g.say("trimmerChange")}; one picofarad more pulls by ${g.say("pullPerPicofarad")}.${beyond === "no" ? "" : ` ${reach}: perhaps not far enough.`}`,
      {
        do: `Insulated tool, a little at a time, toward ${high ? "more" : "less"} capacitance; take the tool away before you judge. Then hear the signal again.`,
        restsOn: ["crystalOff", "crystalError", "trimmerChange", "pullPerPicofarad"],
      },
    );
}
/** The ends of the band, where levels were read there. */
function aboutEnds(g: G, put: Put): void {
  for (const [name, where] of [
    ["lowLost", "lower"],
    ["highLost", "upper"],
  ] as const) {
    if (g.figures[name].low === null) continue;
    const holds = g.verdict((_, y) => y[name] <= y.endsLoss + mostMoreDb && y[name] >= -mostMoreDb);
    put(
      `converter-${where}-${holds}`,
      holds === "yes" ? "note" : holds === "no" ? "act" : "check",
      `The ${where} end reads ${g.say(name)} below the middle; circuits peaked in the middle lose only ${g.say("endsLoss")}.`,
      {
        ...(holds === "yes"
          ? {}
          : { do: "Peak the input circuits again in the middle of the band, from the last to the first, and read both ends." }),
        restsOn: [name, "endsLoss"],
      },
    );
  }
}
function aboutGain(g: G, put: Put): void {
  const enough = g.verdict((_, y) => y.gain >= y.leastGain);
  const notTooMuch = gainVerdict(g);
  if (enough !== "yes")
    put(
      `converter-gain-low-${enough}`,
      enough === "no" ? "act" : "check",
      `Its gain is ${g.say("gain")}; above ${g.say("leastGain")} the receiver behind it costs no more than 1 dB against the antenna noise.`,
      {
        do: "Check its tubes first, then their volts and its input, on the accessory's own sheets.",
        restsOn: ["gain", "leastGain"],
        state: "open-dead",
      },
    );
  if (notTooMuch === "yes") {
    if (enough === "yes")
      put(
        "converter-gain-right",
        "note",
        `Its gain is ${g.say("gain")}: enough to bring in the antenna noise, and not too much; ${practice}.`,
        {
          restsOn: ["gain", "leastGain"],
        },
      );
    return;
  }
  put(
    `converter-gain-high-${notTooMuch}`,
    notTooMuch === "no" ? "act" : "check",
    `Its gain is ${g.say("gain")}. Over ${mostGainDb} dB it brings no weak signal nearer, and every strong one nearer to overload; the S meter reads that much too high (${practice}).`,
    {
      do: `A pad of ${g.say("toTakeOff")} between converter and receiver: ${g.say("padAcross")} across at each end, ${g.say("padInSeries")} in series, in a closed box. Or turn its own gain down, if it has a control.`,
      restsOn: ["gain", "toTakeOff", "padAcross", "padInSeries"],
      state: "panel",
    },
  );
}
function before(g: G, put: Put): void {
  const x = g.best;
  put("converter-1-dial", "act", "First the receiver alone: any error of its dial here goes into every reading through the converter.", {
    do: `Converter unplugged, all warm for half an hour. On the range where the band will lie, zero beat a marker near ${mhz(Math.abs(x.crystal - x.wantedLow))} and write down how far the dial reads low or high. Ear: the note goes down to nothing. Meter: it flutters slowly, then steadies.`,
    restsOn: ["peakAt"],
    state: "panel",
  });
  put("converter-2-swings", "act", "Then whether its crystal oscillates at all.", {
    do: "Converter on, antenna off, AVC on. Ear: the hiss rises as it warms. A finger near the crystal's holder, not on it, changes next to nothing; with no hiss and no stations the crystal isn't oscillating, or its tube is dead. Another receiver beside it hears its carrier on the crystal's frequency.",
    restsOn: ["leastGain"],
  });
}
function trimming(g: G, put: Put): void {
  const x = g.best;
  const dial = Math.abs(x.crystal - (x.wantedLow + x.wantedHigh) / 2);
  put(
    "converter-3-signal",
    "act",
    `A signal of known frequency: in mid band it belongs at ${mhz(dial)} on the dial${isAbove(x) ? ", which runs backward here" : ""}.`,
    {
      do: "A marker's harmonic, a beacon, or a generator set by a counter, at the converter's input. Ear: zero beat, the note gone down to nothing; read the dial, write down the signal and the dial; at both ends and in the middle. All off by the same: the crystal, or the receiver's dial. Off by more at one end: the receiver's dial.",
      restsOn: ["crystalOff"],
      state: "panel",
    },
  );
  put(
    "converter-4-trim",
    "act",
    `Then the trimmer, for zero beat at the right place on the dial; one picofarad more pulls by ${g.say("pullPerPicofarad")}, and it reaches ${g.say("lowersBy")} down and ${g.say("raisesBy")} up.`,
    {
      do: "Set the dial where the signal belongs, allowing for what it reads low or high; insulated tool. Ear: the note goes down to nothing and comes back. Meter: the flutter slows and stops. Sharper still: one marker heard by both paths, the wire near the receiver's own terminal as well: the two beat by the crystal's error.",
      restsOn: ["pullPerPicofarad", "lowersBy", "raisesBy"],
    },
  );
}
function peaking(g: G, put: Put): void {
  put("converter-5-peak", "act", `Then the input: peaked at ${g.say("peakAt")}, the ends lose ${g.say("endsLoss")} each.`, {
    do: "A weak steady signal there, or the noise of the antenna, AVC on. Output circuit first, receiver in the middle of its range; then the last input circuit, then the one at the antenna; then all once more. Meter: one clear peak each, falling alike on both sides. Ear: the hiss is loudest there. Then both ends: alike, within 2 dB.",
    restsOn: ["peakAt", "endsLoss"],
  });
  put(
    "converter-6-gain",
    "act",
    `There is gain enough when you hear the antenna: plug it in, and the hiss must rise. Above ${g.say("leastGain")} the receiver behind it costs no more than 1 dB.`,
    {
      do: "Generator level for the same output, AVC off or clamped: at the receiver's terminal on its own range, then at the converter's input in mid band; write down both, without it and with it. Ear: antenna off, then on, and a plain rise; the strongest station of the band brings no whistle that a pad takes away.",
      restsOn: ["leastGain"],
      state: "panel",
    },
  );
}
function leaving(put: Put): void {
  put("converter-7-without", "act", "Last, without it: the receiver on its own antenna, as it was.", {
    do: "Switch off, unplug, discharge, MEASURE; converter and its power lead off, the antenna back on the receiver. On, warm: a station of that range where it was before and as loud, and none from the high band. Both states go on record, on the sheet “Without the accessory and with it”.",
    restsOn: ["gain"],
    state: "open-dead",
  });
}

import { type GroundOn, sheet } from "../../ask/contract";
import { inside, practice } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import { choice, quantity } from "../../ask/in-short";
import type { NoValue } from "../../ask/results";
import type { StripModel } from "../../physics/if-strip";
import { StripResponse } from "../../physics/if-strip";
import { crossingHz, peakOf } from "../../physics/passband";
import type { Bench } from "../../set/bench";
import { oscillatorInput } from "../inputs/dial";
import { stripInput } from "../inputs/strip-and-cable";
import theory from "./theory.md";

interface Inputs {
  readonly strip: StripModel;
  readonly oscillator: "above" | "below";
  readonly cwDetector: "diode" | "product";
  readonly avcWithBfo: "on" | "off";
  readonly audioLow: number;
  readonly cwPitch: number;
  readonly bfoRange: number;
  readonly bfoVolts: number;
  readonly signalVolts: number;
  readonly avcFromBfo: number;
}
type Names =
  | "upperAt"
  | "lowerAt"
  | "upperOff"
  | "lowerOff"
  | "opposite"
  | "cwOff"
  | "cwOpposite"
  | "injection"
  | "distortion"
  | "signalMost"
  | "rangeSpare";
type G = GroundOn<Inputs, Names>;
const r = new StripResponse();
/**
 * Distortion of an envelope detector by two waves: second harmonic over the fundamental of sqrt(1 + r^2 + 2 r cos), which is r/4 for a small
 * r and the same for r and 1/r.
 */
function envelopeDistortion(ratio: number): number {
  const r = Math.min(ratio, 1 / ratio);
  const n = 256;
  let [first, second] = [0, 0];
  for (let i = 0; i < n; i++) {
    const t = (2 * Math.PI * (i + 0.5)) / n;
    const envelope = Math.sqrt(1 + r * r + 2 * r * Math.cos(t));
    first += envelope * Math.cos(t);
    second += envelope * Math.cos(2 * t);
  }
  return Math.abs(second / first);
}
const most = 0.05;

export const bfo = sheet({
  id: "bfo",
  version: 1,
  title: "BFO, pitch and sideband",
  question: "Where does the BFO go for each sideband, and is it strong enough?",
  subject: "stage",
  stageKinds: ["bfo"],
  joins: false,
  works: "open-live",
  steps: ["22"],
  inputs: {
    strip: { ...stripInput, from: (b: Bench) => b.stripAsFitted() },
    oscillator: oscillatorInput,
    cwDetector: choice(["diode", "product"], "detector that the BFO works into", "service sheet"),
    avcWithBfo: choice(["on", "off"], "AVC while the BFO is on", "its switch"),
    audioLow: quantity("frequency", "lowest audio that is wanted", "300 Hz for speech", [300, 0, practice], {
      max: 2000,
      from: (b) => b.quantity("audio.low"),
      keptAt: "audio.low",
    }),
    cwPitch: quantity("frequency", "pitch that CW is to have", "chosen", [700, 0, practice], { max: 3000 }),
    bfoRange: quantity(
      "frequency",
      "how far the BFO's knob moves it to each side",
      "zero beat at both ends with a generator by counter",
      [3e3, 500, "a manual's value, read"],
      {
        max: 50e3,
      },
    ),
    bfoVolts: quantity("voltage", "BFO at the detector, peak", "high-impedance probe at the detector, no signal", [3, 1, practice], {
      max: 100,
    }),
    signalVolts: quantity("voltage", "signal at the detector, peak", "the same on a usual signal, BFO off", [1, 0.4, practice], {
      max: 100,
    }),
    avcFromBfo: quantity(
      "voltage",
      "how far the BFO alone moves the AVC line; 0 if not at all",
      "high-impedance meter on the AVC line, no signal: BFO off, then on",
      [0, 0.3, practice],
      {
        min: 0,
        max: 50,
      },
    ),
  },
  first: ["cwPitch", "bfoRange", "bfoVolts", "signalVolts", "avcFromBfo"],
  results: {
    upperAt: { dimension: "frequency", meaning: "BFO for upper sideband" },
    lowerAt: { dimension: "frequency", meaning: "BFO for lower sideband" },
    upperOff: { dimension: "frequency", meaning: "BFO for upper sideband, from the middle of the pass band" },
    lowerOff: { dimension: "frequency", meaning: "BFO for lower sideband, from the middle of the pass band" },
    opposite: { dimension: "decibel", meaning: "other sideband at 1 kHz, down by" },
    cwOff: { dimension: "frequency", meaning: "BFO off the middle of the pass band for CW at the pitch wanted" },
    cwOpposite: { dimension: "decibel", meaning: "CW on the other side of zero beat, down by" },
    injection: { dimension: "ratio", meaning: "BFO over signal at the detector" },
    distortion: { dimension: "fraction", meaning: "second harmonic of a diode detector at this ratio of BFO to signal" },
    signalMost: { dimension: "voltage", meaning: "most signal at the detector that stays clean" },
    rangeSpare: { dimension: "frequency", meaning: "BFO range left beyond the farther sideband" },
  },
  key: ["upperAt", "lowerAt", "opposite", "injection"],
  curves: {
    wanted: { x: "frequency", y: "decibel", holds: "power", meaning: "audio of the wanted sideband" },
    other: { x: "frequency", y: "decibel", holds: "power", meaning: "audio of the unwanted sideband" },
  },
  prepare: () => {
    const axis = Float64Array.from({ length: 61 }, (_, i) => 100 + 65 * i);
    return {
      axes: { wanted: axis, other: axis },
      solve: (plain, into) => {
        const x = plain as unknown as Inputs;
        r.load(x.strip);
        const peak = peakOf(r, [x.strip.intermediateFrequency]);
        const [low, high] = [crossingHz(r, peak, 6, -1), crossingHz(r, peak, 6, 1)];
        const middle = (low + high) / 2;
        // an oscillator above the signal turns the sidebands round: upper comes out below its carrier
        const turned = x.oscillator === "above";
        const [below, above] = [low - x.audioLow, high + x.audioLow];
        const upperAt = turned ? above : below;
        const lowerAt = turned ? below : above;
        const side = turned ? -1 : 1;
        for (let i = 0; i < axis.length; i++) {
          into.wanted[i] = r.at(upperAt + side * axis[i]) / peak.power;
          into.other[i] = r.at(upperAt - side * axis[i]) / peak.power;
        }
        const down = (bfoHz: number, pitch: number, way: number): number =>
          10 * Math.log10(r.at(bfoHz + way * pitch) / r.at(bfoHz - way * pitch));
        const cwOff = -side * x.cwPitch;
        const ratio = x.bfoVolts / x.signalVolts;
        const clean: NoValue = { none: "a product detector does not ask for it" };
        return {
          upperAt,
          lowerAt,
          upperOff: upperAt - middle,
          lowerOff: lowerAt - middle,
          opposite: down(upperAt, 1000, side),
          cwOff,
          cwOpposite: down(middle + cwOff, x.cwPitch, side),
          injection: ratio,
          distortion: x.cwDetector === "diode" ? envelopeDistortion(1 / ratio) : clean,
          signalMost: x.bfoVolts * (x.cwDetector === "diode" ? 4 * most : 0.1),
          rangeSpare: x.bfoRange - Math.max(Math.abs(upperAt - middle), Math.abs(lowerAt - middle)),
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    if (g.best.strip.cans.some((c) => c.addedCapacitance > 0))
      return "Not yet: a cable hangs on a can and is not tuned out, so the pass band is not yet what it will be.";
    if (g.verdict((_, y) => y.rangeSpare > 0) === "no")
      return `This BFO does not reach both sidebands: ${g.about("rangeSpare")} is left of its travel.`;
    return `Upper sideband with the BFO ${g.about("upperOff")} from the middle, lower with ${g.about("lowerOff")}; the other sideband is ${g.about("opposite")} down at 1 kHz.`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const x = g.best;
    const out: Finding[] = [];
    const put = (id: string, severity: Finding["severity"], says: string, todo: string | undefined, restsOn: readonly Names[]): void => {
      out.push({
        id: `bfo-${id}`,
        severity,
        says,
        ...(todo ? { do: todo } : {}),
        restsOn,
        hazards: todo ? inside : ["none"],
        // gains and switches are at the panel, its can and its coupling are inside
        ...(todo && /^(?:avc|weak)/.test(id) ? { state: "panel" as const } : {}),
      });
    };
    const reach = g.verdict((_, y) => y.rangeSpare > 0);
    if (reach !== "yes")
      put(
        `range-${reach}`,
        "check",
        `The BFO ${reach === "no" ? "does not reach" : "may not reach"} both sidebands: ${g.say("rangeSpare")} is left.`,
        "Centre it first: knob at the middle, generator at the middle of the pass band, trim for zero beat. A capacitor that turns all the way round has two middles.",
        ["rangeSpare"],
      );
    const weak = x.cwDetector === "product" ? g.verdict((_, y) => y.injection < 10) : g.verdict((_, y) => y.distortion > most);
    if (weak !== "no")
      put(
        `weak-${weak}`,
        "check",
        x.cwDetector === "product"
          ? `A product detector wants ten times the signal from the BFO; here it is ${g.say("injection")} times.`
          : `On a diode the BFO is ${g.say("injection")} times the signal: speech is distorted by ${g.about("distortion")}, and more on peaks.`,
        `Turn the RF gain down, volume up: keep the signal under ${g.about("signalMost")} at the detector. Or bring more BFO to it, a few pF more of coupling.`,
        ["injection", "signalMost"],
      );
    if (x.avcWithBfo === "on") {
      const moved = g.verdict((i) => i.avcFromBfo > 0.5);
      put(
        `avc-${moved}`,
        "check",
        moved === "yes"
          ? "The BFO alone works the AVC and holds weak signals down."
          : "AVC on with the BFO: it follows each syllable, and the BFO may work it.",
        moved === "yes"
          ? "Switch the AVC off for CW and SSB and use the RF gain, or lessen the BFO where it reaches the AVC diode."
          : "Switch the AVC off for CW and SSB and set the level with the RF gain.",
        ["injection"],
      );
    }
    const poor = g.verdict((_, y) => y.opposite < 20);
    if (poor === "yes")
      put(
        "wide",
        "note",
        `This strip is too wide to keep the other sideband away (${g.say("opposite")} at 1 kHz): both are heard.`,
        undefined,
        ["opposite"],
      );
    put(
      "turned",
      "note",
      x.oscillator === "above"
        ? "The oscillator is above the signal, so sidebands come out inverted: the BFO goes above the pass band for upper sideband."
        : "The oscillator is below the signal: sidebands keep their order, and the BFO goes below the pass band for upper sideband.",
      undefined,
      ["upperAt"],
    );
    return out as never;
  },
  figures: [
    {
      id: "sidebands",
      title: "Audio of both sidebands, BFO set for the upper one",
      xLabel: "audio",
      yLabel: "relative to the strip's peak",
      traces: [
        { label: "wanted sideband", curve: "wanted", stroke: "accent", band: true },
        { label: "other sideband", curve: "other", stroke: "ink", band: true },
      ],
      yFrom: -70,
    },
  ],
  theory,
});

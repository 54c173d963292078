import { type ChartRead, chartCsv, type DialRead, dialCsv, type playerOf, type worldNamed } from "./whole-job.testdata";

/** What is read of the invented set of ten tubes, and what stands behind it. */
export interface SupplyRead {
  readonly lineV: number;
  readonly firstV: number;
  readonly secondV: number;
  readonly inputW: number;
}
export interface SupplyTruth extends SupplyRead {
  readonly firstRipplePpV: number;
  readonly rectifierPeakA: number;
}
export interface SafetyRead {
  readonly rows: readonly { readonly touchA: number }[];
  readonly insulationOhm: number;
  readonly cord: string;
  readonly fuse: string;
  readonly groundBondOhm: number;
}
export interface StripTruth {
  readonly peakHz: number;
  readonly width3Hz: number;
  readonly width60Hz: number;
  readonly width6Hz: number;
}
/** The set as a person describes it who has looked at it and has its diagram; tube types are any with the kind's usual working point. */
export const described = [
  "title=Ten-tube communications set",
  "chassis=isolated",
  "lineVoltage=117 V",
  "lineFrequency=60 Hz",
  "watts=80 W",
  "rectifier=full-wave silicon, as altered",
  "secondaryVoltage=310 V",
  "mixerPlate=255 V",
  "intermediateFrequency=455 kHz",
  "cans=3",
  "canQuality=wide",
  "rfStages=1",
  "bfo=yes",
  "bands=0.54 - 1.38 MHz\n1.33 - 3.35 MHz\n3.2 - 8 MHz\n7.7 - 18.8 MHz",
  "tubes=V1, 6SK7, RF amplifier\nV2, 6BE6, mixer\nV3, 6C4, oscillator\nV4, 6SK7, first IF amplifier\nV5, 6SK7, second IF amplifier\nV6, 6AL5, second detector and AVC\nV7, 6AU6, BFO\nV8, 6SQ7, first audio\nV9, 6K6, output\nV10, 5Y3GT, rectifier",
].flatMap((f) => ["--field", f]);
/** What the diagram says of supply and stages. */
export const byDiagram = [
  "supplies.secondaryResistance=110 ohm ±5 ohm",
  "supplies.primaryResistance=0 ohm",
  "supplies.firstCapacitance=10 uF ±2 uF",
  "supplies.firstChoke=10 H",
  "supplies.firstResistance=260 ohm",
  "supplies.secondCapacitance=20 uF ±4 uF",
  "supplies.secondResistance=1 ohm",
  "supplies.plateCurrent=107 mA ±10 mA",
  "supplies.restCurrent=0 mA",
  "supplies.bleeder=33 kohm",
  "stages.output.plateFeed=350 ohm",
  "stages.output.screenFeed=470 ohm",
  "stages.output.cathodeResistor=270 ohm",
  "stages.if1.plateFeed=2200 ohm",
  "stages.if1.screenFeed=47 kohm",
  "stages.if1.cathodeResistor=68 ohm",
  "bands.a.gangLow=12 pF ±1 pF",
  "bands.a.gangHigh=384 pF ±4 pF",
];

export const mA = (amps: number): string => `${amps * 1e3}`;

/** The act that proves the chassis isolated, at so many ohms. */
export const ohmsToChassis = (ohm: number) => [
  ...["--ohms", `${ohm} ohm`, "--meter", "insulation tester, 500 V", "--how", "each blade to chassis, switch on; own transformer traced"],
  ...["--confirm", "isolated"],
];
/** The grids were read with another meter than the other pins. */
export const grids = ["--try", "meter=VTVM, 11 MΩ"];

const bands = ["a", "b", "c", "d"];
/** What is read into the job: the chart with B+ at the second filter capacitor, and dials, range A marked in kHz, the others in MHz. */
export function readingsOf(p: ReturnType<typeof playerOf>, world: ReturnType<typeof worldNamed>) {
  const chartAs = (of: "found" | "left", bPlusV: number): string =>
    p.file(`${of}.csv`, chartCsv(world.reads<ChartRead>(5), of, [["V10", 260, bPlusV]]));
  const dials = async (read: DialRead, state: string, of = bands): Promise<void> => {
    for (const id of of) {
      const i = bands.indexOf(id);
      const text = i === 0 ? dialCsv(read, i, 1e3, "kHz") : dialCsv(read, i, 1e6, "MHz");
      await p.act("read", p.file(`${state}-${id}.csv`, text), "--as", "dial", "--state", state, "--band", id);
    }
  };
  return { chartAs, dials };
}

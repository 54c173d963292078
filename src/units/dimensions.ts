/**
 * Every dimension that a declared quantity may have: its SI unit, the units it is printed in, and the spellings that the trade writes.
 * `loose` spellings are matched without regard to case; `exact` ones, where case tells two units apart, are tried first.
 */
export interface DimensionOf {
  readonly si: string;
  /** printed units, largest first; `from` is the smallest SI size printed in it */
  readonly print: readonly { readonly unit: string; readonly factor: number }[];
  readonly old?: readonly { readonly unit: string; readonly factor: number }[];
  readonly exact?: Readonly<Record<string, number>>;
  readonly loose: Readonly<Record<string, number>>;
  /** what a person would type, for error texts and help */
  readonly examples: string;
}

const each = (names: string, factor: number): Record<string, number> => Object.fromEntries(names.split(" ").map((n) => [n, factor]));
const u = (unit: string, factor: number) => ({ unit, factor });

export const dimensions = {
  frequency: {
    si: "Hz",
    print: [u("GHz", 1e9), u("MHz", 1e6), u("kHz", 1e3), u("Hz", 1)],
    old: [u("Mc", 1e6), u("kc", 1e3), u("cps", 1)],
    loose: {
      ...each("ghz", 1e9),
      ...each("mhz mc mc/s mcs megacycles megacycle", 1e6),
      ...each("khz kc kc/s kcs kilocycles kilocycle k", 1e3),
      ...each("hz cps c/s cycles cycle ~", 1),
    },
    examples: "455 kHz, 455 kc, 7.1 Mc",
  },
  capacitance: {
    si: "F",
    print: [u("F", 1), u("µF", 1e-6), u("nF", 1e-9), u("pF", 1e-12), u("fF", 1e-15)],
    old: [u("mfd", 1e-6), u("mmf", 1e-12)],
    loose: {
      ...each("f farad farads", 1),
      ...each("uf µf mf mfd ufd µfd microfarad microfarads mike mikes", 1e-6),
      ...each("nf n", 1e-9),
      ...each("pf mmf mmfd uuf µµf uufd µµfd micro-micro-farad micro-microfarad micromicrofarad picofarad p puff", 1e-12),
      ...each("jar jars", 1e-6 / 900),
      ...each("ff", 1e-15),
    },
    examples: "22 pF, 22 mmf, 0.05 mfd",
  },
  inductance: {
    si: "H",
    print: [u("H", 1), u("mH", 1e-3), u("µH", 1e-6), u("nH", 1e-9)],
    loose: {
      ...each("h hy henry henries", 1),
      ...each("mh mhy millihenry millihenries", 1e-3),
      ...each("uh µh uhy mics mic microhenry microhenries", 1e-6),
      ...each("nh", 1e-9),
    },
    examples: "1.2 mH, 250 µH",
  },
  resistance: {
    si: "Ω",
    print: [u("GΩ", 1e9), u("MΩ", 1e6), u("kΩ", 1e3), u("Ω", 1), u("mΩ", 1e-3)],
    exact: { mΩ: 1e-3, mohm: 1e-3, MΩ: 1e6, Mohm: 1e6 },
    loose: {
      ...each("gohm gω g", 1e9),
      ...each("meg megohm megohms mω megω", 1e6),
      ...each("k kω kohm kohms kilohm kilohms", 1e3),
      ...each("ω ohm ohms r", 1),
    },
    examples: "4k7, 470K, 1.5 megohm",
  },
  conductance: {
    si: "S",
    print: [u("S", 1), u("mS", 1e-3), u("µS", 1e-6), u("nS", 1e-9)],
    loose: {
      ...each("s mho mhos siemens a/v", 1),
      ...each("ms ma/v mmho millimho", 1e-3),
      ...each("us µs umho µmho micromho micromhos umhos µmhos", 1e-6),
      ...each("ns", 1e-9),
    },
    examples: "2000 µmho, 2 mA/V, 2 mS",
  },
  voltage: {
    si: "V",
    print: [u("kV", 1e3), u("V", 1), u("mV", 1e-3), u("µV", 1e-6)],
    loose: {
      ...each("kv", 1e3),
      ...each("v volt volts vdc vac vrms", 1),
      ...each("mv", 1e-3),
      ...each("uv µv microvolt microvolts", 1e-6),
    },
    examples: "250 V, 12 µV",
  },
  current: {
    si: "A",
    print: [u("A", 1), u("mA", 1e-3), u("µA", 1e-6), u("nA", 1e-9)],
    loose: {
      ...each("a amp amps ampere amperes", 1),
      ...each("ma mils milliamp milliamps", 1e-3),
      ...each("ua µa", 1e-6),
      ...each("na", 1e-9),
    },
    examples: "80 mA, 5 µA",
  },
  power: {
    si: "W",
    print: [u("kW", 1e3), u("W", 1), u("mW", 1e-3), u("µW", 1e-6)],
    loose: { ...each("kw", 1e3), ...each("w watt watts va", 1), ...each("mw", 1e-3), ...each("uw µw", 1e-6) },
    examples: "65 W, 50 mW",
  },
  energy: {
    si: "J",
    print: [u("J", 1), u("mJ", 1e-3), u("µJ", 1e-6)],
    loose: { ...each("j", 1), ...each("mj", 1e-3), ...each("uj µj", 1e-6) },
    examples: "2 J, 0.1 mJ",
  },
  charge: {
    si: "C",
    print: [u("mC", 1e-3), u("µC", 1e-6), u("nC", 1e-9)],
    loose: { ...each("c", 1), ...each("mc", 1e-3), ...each("uc µc", 1e-6), ...each("nc", 1e-9) },
    examples: "45 µC",
  },
  length: {
    si: "m",
    print: [u("m", 1), u("mm", 1e-3)],
    old: [u("ft", 0.3048), u("in", 0.0254)],
    loose: {
      ...each("m metre metres meter meters", 1),
      ...each("cm", 0.01),
      ...each("mm", 1e-3),
      ...each("ft foot feet '", 0.3048),
      ...each('in inch inches "', 0.0254),
      ...each("yd", 0.9144),
      ...each("km", 1e3),
    },
    examples: "90 cm, 3 ft, 1.5 m",
  },
  capacitancePerLength: {
    si: "F/m",
    print: [u("nF/m", 1e-9), u("pF/m", 1e-12)],
    old: [u("mmf/ft", 1e-12 / 0.3048)],
    loose: {
      ...each("pf/m mmf/m uuf/m µµf/m", 1e-12),
      ...each("nf/m", 1e-9),
      ...each("f/m", 1),
      ...each("pf/ft mmf/ft uuf/ft µµf/ft mmf/foot pf/foot", 1e-12 / 0.3048),
    },
    examples: "44 pF/m, 31 pF/ft",
  },
  time: {
    si: "s",
    print: [u("h", 3600), u("min", 60), u("s", 1), u("ms", 1e-3), u("µs", 1e-6), u("ns", 1e-9)],
    loose: {
      ...each("h hr hour hours", 3600),
      ...each("min minute minutes", 60),
      ...each("s sec second seconds", 1),
      ...each("ms", 1e-3),
      ...each("us µs", 1e-6),
      ...each("ns", 1e-9),
    },
    examples: "10 s, 45 min",
  },
  ratio: {
    si: "",
    print: [u("", 1)],
    loose: { ...each("x times", 1), ...each("% percent", 0.01), ...each("ppm", 1e-6) },
    examples: "0.66, 5 %, 20 ppm",
  },
  division: { si: "div", print: [u("div", 1)], loose: { ...each("div divs division divisions", 1) }, examples: "12.4, 0.2 div" },
  /** how likely something is: told in whole per cent, and never as nothing or as certain */
  chance: { si: "", print: [u("%", 0.01)], loose: { ...each("% percent", 0.01) }, examples: "53 %" },
  fraction: { si: "", print: [u("%", 0.01)], loose: { ...each("% percent", 0.01), ...each("ppm", 1e-6) }, examples: "12 %, 0.12" },
  ppm: {
    si: "",
    print: [u("ppm", 1e-6)],
    loose: { ...each("ppm", 1e-6), ...each("ppb", 1e-9), ...each("% percent", 0.01) },
    examples: "24 ppm",
  },
  decibel: { si: "dB", print: [u("dB", 1)], loose: each("db", 1), examples: "-3.5 dB" },
  dbm: { si: "dBm", print: [u("dBm", 1)], loose: each("dbm", 1), examples: "-73 dBm" },
  sReading: { si: "dB over S9", print: [u("dB over S9", 1)], loose: {}, examples: "S7, S9+20" },
  temperature: { si: "°C", print: [u("°C", 1)], loose: each("°c c degc celsius k kelvin kelvins", 1), examples: "21 °C" },
  angle: { si: "°", print: [u("°", 1)], loose: each("° deg degree degrees", 1), examples: "45°" },
} as const satisfies Record<string, DimensionOf>;

export type Dimension = keyof typeof dimensions;
export const dimensionOf = (d: Dimension): DimensionOf => dimensions[d];

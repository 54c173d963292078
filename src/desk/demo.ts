import { inventDial } from "../infer/dial/possible-dials";
import { inventSweep } from "../invented/strip";
import { formById } from "../job/forms";
import type { Fitting, SetDescription } from "../set/describe";
import { patternById } from "../set/patterns/kinds";
import { mediumStrip } from "../set/patterns/strips";
import { exact, type Quantity, tolerance } from "../units/quantity";

/**
 * The demo: an invented scenario. A harbour radio club brings its nine-tube set, made over for 230 V 50 Hz, IF 465 kHz; a Q multiplier
 * is to be hung on the mixer plate through 1.5 m of 93-ohm cable. Its sweep is made from a model with known truth and noise.
 */
export const demoName = "Harbour club set";
export const demoInvented = "made by the demo from a model with known truth, 0.08 dB noise, seed 1952; no instrument took it";
const stated = (value: number, half: number, source: string): Quantity => ({
  value,
  spread: half > 0 ? tolerance(half) : exact,
  origin: "stated",
  source,
});

export function demoSet(): SetDescription {
  const base = patternById("nine-tube-bandspread")!;
  const strip = mediumStrip(465e3);
  const cable = "RG-62A/U, 93 Ω, from memory of MIL-C-17";
  return {
    ...base,
    title: "Harbour radio club's general-coverage set",
    note: "Invented scenario of the demo. Own power transformer, 230 V 50 Hz, IF 465 kHz, two IF stages, three cans.",
    line: {
      ...base.line,
      voltage: stated(230, 0, "type plate, invented"),
      frequency: stated(50, 0, "type plate, invented"),
      highRatio: stated(1.1, 0.01, "EN 50160: 230 V +10 %, from memory"),
    },
    supplies: { ...base.supplies, secondaryVoltage: stated(285, 6, "service sheet, invented") },
    strip: { ...strip, cans: [...strip.cans] },
    fittings: base.fittings.map(
      (f): Fitting =>
        f.id === "qm"
          ? {
              ...f,
              state: "planned" as const,
              label: "Club's Q multiplier",
              values: {
                ...f.values,
                cableLength: { value: 1.5, spread: tolerance(0.02), origin: "measured", source: "tape measure" },
                cableCapacitancePerLength: stated(42.7e-12, 1.6e-12, cable),
                velocityFactor: stated(0.84, 0.01, cable),
                couplingCapacitance: stated(1e-9, 50e-12, "marking"),
              },
            }
          : f.id === "markers"
            ? { ...f, label: "Club's marker generator", state: "set" as const }
            : {
                ...f,
                state: "planned" as const,
                label: "Club's converter for 10 m",
                values: {
                  wantedLow: stated(28e6, 0, "the club's wish, invented"),
                  wantedHigh: stated(28.5e6, 0, "the club's wish, invented"),
                },
              },
    ),
  };
}

/**
 * The demo's record cards as found, typed as a person would. Invented: the screen bypass of the first IF tube leaks 20 kohm, and silicon stands where
 * the set was made for a tube. A meter of 10 Mohm; the chart was taken with 20 kohm/V at the rated line.
 */
export const demoCards: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  "voltage-chart": {
    "Line volts": "236",
    Meter: "digital, 10 MΩ (invented)",
    "Signal, gain, band, bandspread": "no signal, gain full, 80 m",
    "Chart's meter and line": "20 kΩ/V, 230 V",
    ...rows(
      "voltage-chart",
      ["Tube", "Pin", "Electrode", "Chart V", "Source Ω if known", "Measured V"],
      [
        ["V1 RF", "5", "plate", "225", "2.2k", "233"],
        ["V1 RF", "6", "screen", "100", "33k", "104"],
        ["V1 RF", "7", "cathode", "1.05", "60", "1.1"],
        ["V4 first IF", "5", "plate", "225", "2.2k", "242"],
        ["V4 first IF", "6", "screen", "100", "33k", "66.5"],
        ["V4 first IF", "7", "cathode", "1.05", "60", "0.58"],
        ["V5 second IF", "5", "plate", "225", "2.2k", "234"],
        ["V5 second IF", "6", "screen", "100", "33k", "103"],
        ["V5 second IF", "7", "cathode", "1.05", "60", "1.08"],
        ["V6 detector", "7", "plate", "90", "", "118"],
        ["V9 rectifier", "8", "B+", "285", "", "360"],
        ["V1 RF", "4", "heater", "6.3", "", "6.46"],
      ],
    ),
  },
  capacitors: {
    Tester: "leakage tester (invented)",
    ...rows(
      "capacitors",
      ["Part", "Kind", "Duty", "Value", "Rated V", "Leakage mA"],
      [
        ["C1", "wax paper", "line bypass", "0.02 uF", "400", ""],
        ["C40", "electrolytic", "filter", "20 uF", "450", "4"],
        ["C41", "electrolytic", "filter", "20 uF", "450", "0.9"],
        ["C33", "wax paper", "output coupling", "0.02 uF", "400", ""],
        ["C12", "moulded paper", "screen bypass", "0.05 uF", "400", ""],
        ["C20", "wax paper", "AVC", "0.05 uF", "200", ""],
      ],
    ),
  },
  performance: {
    "Generator, last check": "invented",
    "Warm-up, minutes": "60",
    ...rows(
      "performance",
      ["Figure", "Band or place", "As found or as left", "Value", "Method and definition", "Conditions"],
      [
        ["Sensitivity", "28.2 MHz", "as found", "6.2 uV ± 10%", "10 dB (S+N)/N, AM 30 %, 6 kHz, 50 ohm, p.d.", "AVC held (invented)"],
        ["Sensitivity", "28.2 MHz", "as left", "2.2 uV ± 10%", "10 dB (S+N)/N, AM 30 %, 6 kHz, 50 ohm, p.d.", "AVC held (invented)"],
        ["Image rejection", "7.1 MHz", "as left", "44 dB ± 2 dB", "generator, output held", "AVC held (invented)"],
        ["Hum", "output", "as found", "-31 dB ± 1 dB", "re 50 mW, A-weighted", "volume full (invented)"],
        ["Hum", "output", "as left", "-45 dB ± 1 dB", "re 50 mW, unweighted", "volume full (invented)"],
      ],
    ),
  },
  "s-meter": {
    "Generator, impedance": "50 Ω (invented)",
    ...rows(
      "s-meter",
      ["µV", "dBm", "S reading", "AVC V", "Audio dB"],
      [
        ["1", "", "S2", "-0.1", "0"],
        ["3.16", "", "S4", "-0.6", "9"],
        ["10", "", "S6", "-2.4", "15"],
        ["31.6", "", "S8", "-4.6", "16.2"],
        ["100", "", "S9+4", "-6.7", "17"],
        ["1000", "", "S9+22", "-11", "18.2"],
        ["10000", "", "S9+41", "-15.4", "19.3"],
      ],
    ),
  },
  "safety-in": {
    "Page before opening read, signed": "3 May, the club's bench keeper (invented)",
    "Cord type": "two-wire, rubber; a three-wire one is to come",
    "Fuse rating and type": "0.63 A slow, in the hot wire",
    "Insulation line to chassis, MΩ": "8",
    "B+ to chassis once settled, kΩ": "34",
    "Line bypass parts and class": "0.02 µF wax paper, no class: taken out before anything else",
    "Touch current one way, mA": "0.08",
    "Touch current other way, mA": "0.07",
    "Tester used": "insulation tester, 500 V (invented)",
    "Date and sign": "3 May, invented",
  },
  "first-power": {
    "Bulb, W": "100",
    "Line, V": "236",
    "Volts on the set behind the bulb, V": "176",
    "Current at full line, A": "0.31",
    "Smoke, glow or smell": "none",
    "Tester used": "voltmeter (invented)",
    "Date and sign": "3 May, invented",
  },
};
/** What was read of band, warm-up and converter, as typed on the sheets: invented, from models whose truth the demo knows. */
export const demoRows: Readonly<Record<string, { readonly text: string; readonly source: string }>> = {
  "bands.b.trackingReadings": {
    text: "1.7 MHz, 1.671 MHz; 4.6 MHz, 4.524 MHz",
    source: "two dial errors, invented: the oscillator's coil is 3 % too large",
  },
  "bands.b.trackingPeaks": {
    text: "1.7 MHz, 1.707 MHz; 4.6 MHz, 4.74 MHz",
    source: "two peaks of the signal circuit, invented: its trimmer is 8 % short",
  },
  "drift.driftLog": { text: demoDriftLog(), source: "warm-up log, invented: 2.1 kHz in two time constants" },
  "safety.bypassClass": { text: "none fitted", source: "taken out at intake, invented" },
  "sensitivity.statedRatio": { text: "(S+N)/N", source: "invented" },
  "sensitivity.statedMode": { text: "AM", source: "invented" },
  "sensitivity.levelIs": { text: "p.d.", source: "invented" },
  "sensitivity.place": { text: "rural", source: "the harbour, invented" },
};
/** Two hours of a set that falls by 2.1 kHz, 7 and 38 minutes, with the thermometer beside its coil; made, not read. */
function demoDriftLog(): string {
  return Array.from({ length: 61 }, (_, i) => 2 * i)
    .map((t) => {
      const hz = 4.2165e6 + 480 * Math.exp(-t / 7) + 1650 * Math.exp(-t / 38) + 6 * Math.sin(t * 2.7);
      return `${t} min, ${(hz / 1e6).toFixed(6)} MHz, ${(22 + 17 * (1 - Math.exp(-t / 38))).toFixed(1)} °C`;
    })
    .join("; ");
}
/** Rows of a card under the headings that are named, never by their place: a card may gain a column. */
function rows(card: string, headings: readonly string[], cells: readonly (readonly string[])[]): Record<string, string> {
  const columns = formById(card)?.columns ?? [];
  const strange = headings.find((h) => !columns.includes(h));
  if (strange !== undefined) throw new Error(`the card ${card} has no column ${strange}`);
  return Object.fromEntries(
    cells.flatMap((r, i) => r.flatMap((text, c) => (text === "" ? [] : [[`row ${i + 1}: ${headings[c]}`, text] as const]))),
  );
}
/** What was read of supply and receiver, and kept with it: invented as well. */
export const demoSupply: Readonly<Record<string, { readonly value: number; readonly source: string; readonly u?: number }>> = {
  "safety.bypass": { value: 0, source: "taken out at intake, invented" },
  "line.today": { value: 236, source: "meter at the outlet, invented" },
  "supplies.measuredFirst": { value: 360, source: "clips on the first filter capacitor, invented" },
  "supplies.measuredHeater": { value: 6.46, source: "at a socket, invented" },
  "sensitivity.level": { value: 2.2e-6, u: 0.1e-6, source: "generator and output meter, invented" },
  "sensitivity.noiseBandwidth": { value: 6e3, source: "of the strip, invented" },
  "sensitivity.sourceResistance": { value: 50, u: 0, source: "of the generator, invented" },
  "sensitivity.listenAt": { value: 28.2e6, u: 0, source: "the club's wish, invented" },
  "drift.oscillatorFrequency": { value: 4.68e6, source: "dial and IF, invented" },
  "drift.minuteLimit": { value: 20, u: 0, source: "chosen by the club, invented" },
  "supplies.setVoltsBehindBulb": { value: 176, source: "behind a bulb of 100 W, invented" },
};

/** The demo's zero beats on its 80 m bandspread scale, markers each 50 kHz; one marker was mistaken for its neighbour. */
export const demoBand = "80";
export const demoSetPoint = "3.5 MHz dot";
export const demoDialInvented =
  "made by the demo from an invented dial, reading noise about 0.1 division, seed 1957; one marker mistaken for its neighbour on purpose";
export function demoZeroBeatsCsv(): string {
  const conversion = { intermediateHz: 465e3, oscillator: "above" } as const;
  const dial = inventDial(
    { id: "demo", lowHz: 3.45e6, highHz: 3.85e6, spacingHz: 50e3, divisions: 100, conversion, used: [0.02, 0.98] },
    1957,
  );
  const rows = dial.points.map((p, i) => `${p.reading.toFixed(2)},${(p.frequencyHz + (i === 5 ? 50e3 : 0)) / 1e3},up`);
  return `# INVENTED: made from an invented dial for the demo, read by nobody\nreading,frequency kHz,approach\n${rows.join("\n")}\n`;
}

/** The demo's sweep as a file: levels over frequency, with its truth known to the demo alone. */
export function demoSweepCsv(): string {
  const s = inventSweep(mediumStrip(465e3), { centreHz: 465_000, halfSpanHz: 14_000, points: 281 }, { db: 0.08, peakDb: -12 }, 1952);
  const rows = Array.from(s.frequencyHz, (hz, i) => `${(hz / 1000).toFixed(3)},${s.levelDb[i].toFixed(2)}`);
  return `# INVENTED: made from a model for the demo, by no instrument\nfrequency kHz,level dB\n${rows.join("\n")}\n`;
}

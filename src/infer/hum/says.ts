import type { Finding } from "../../ask/findings";
import type { HumLine, HumTold } from "../../readings/sound/hum";

/** Recordings of one set at one gain of the sound device, by how the set stood. */
export interface HumHeard {
  /** volume as it is listened at, antenna off or no station */
  readonly normal: HumTold;
  /** volume turned to zero */
  readonly atZero?: HumTold | undefined;
  /** tuned to a steady carrier without modulation, volume as in the first */
  readonly carrier?: HumTold | undefined;
  /** whether the set rectifies one half wave; not known where it is not said */
  readonly halfWave?: boolean | undefined;
}
/** By so much one must exceed the other to count as the stronger, and stay within to count as the same, dB. Source: common practice, no source. */
const clearlyDb = 6;
const sameDb = 3;

/** Power of some multiples together, dB re full scale, with its standard uncertainty; the most that it may be where none stands. */
export interface Family {
  readonly db: number;
  readonly uDb: number;
  readonly stands: boolean;
}
/**
 * Lines of some orders taken together.
 *
 * @source sum of powers; relative uncertainties weighed by power
 */
export function family(lines: readonly HumLine[], takes: (order: number) => boolean): Family {
  const own = lines.filter((l) => takes(l.order));
  const standing = own.filter((l) => l.stands);
  const of = standing.length > 0 ? standing : own;
  const power = of.map((l) => 10 ** (l.rmsDbfs / 10));
  const all = power.reduce((s, v) => s + v, 0);
  const u = Math.sqrt(of.reduce((s, l, i) => s + (power[i] * l.uDb) ** 2, 0)) / Math.max(1e-30, all);
  return { db: 10 * Math.log10(Math.max(1e-20, all)), uDb: u, stands: standing.length > 0 };
}
const even = (o: number): boolean => o % 2 === 0;
const odd = (o: number): boolean => o % 2 === 1;
const any = (): boolean => true;
/** Whether one stands above another by so many dB, its uncertainty and all. */
const above = (a: Family, b: Family, db: number): boolean => a.stands && a.db - b.db - 1.96 * Math.hypot(a.uDb, b.uDb) > db;

type Said = Finding;
const restsOn: Said["restsOn"] = [];
const note = (id: string, says: string): Said => ({ id, severity: "note", says, restsOn, hazards: ["none"] });

/**
 * What the pattern of a hum says, and what to measure next.
 *
 * @param heard recordings of the set
 * @returns findings, the first the plainest; none is more than the lines bear
 * @source causes by their lines: common practice of service literature; a full-wave supply ripples at twice the mains, a half-wave one and all that leaks
 * from heaters at the mains itself
 */
export function humSays(heard: HumHeard): readonly Said[] {
  const { normal } = heard;
  if (normal.allRmsDbfs === undefined) return [note("hum-none", "No hum rises above the noise of this recording.")];
  return [...whereFrom(heard), ...withCarrier(heard), ...byLines(heard)];
}

/** Volume at zero against volume as it is used. */
function whereFrom({ normal, atZero }: HumHeard): readonly Said[] {
  if (!atZero)
    return [
      {
        ...note("hum-zero-next", "Where it gets in can't be told from one recording."),
        severity: "check",
        do: "Record again with the volume at zero and nothing else moved, and give both: hum that stays gets in after the volume control.",
        state: "panel",
      },
    ];
  const [a, b] = [family(normal.lines, any), family(atZero.lines, any)];
  if (above(a, b, 10)) return [note("hum-before-volume", "With the volume at zero it is gone: it gets in ahead of the volume control.")];
  if (b.stands && Math.abs(a.db - b.db) < sameDb)
    return [
      note(
        "hum-after-volume",
        "With the volume at zero it stays the same: it gets in after the volume control, in the output stage or its supply.",
      ),
    ];
  if (above(b, a, sameDb))
    return [
      note("hum-grows-at-zero", "With the volume at zero it is louder: two hums cancel in part, or the control's own wiring picks it up."),
    ];
  return [note("hum-both", "With the volume at zero part of it stays: some gets in ahead of the volume control and some after it.")];
}

/** With a carrier against without. */
function withCarrier({ normal, carrier }: HumHeard): readonly Said[] {
  if (!carrier) return [];
  const [without, on] = [family(normal.lines, any), family(carrier.lines, any)];
  if (!above(on, without, clearlyDb)) return [note("hum-no-carrier", "It does not grow on a carrier: it is not modulation hum.")];
  return [
    {
      id: "hum-modulation",
      severity: "act",
      says: "It grows on a carrier: modulation hum. The carrier picks it up on its way in, or a stage ahead of the detector is modulated by it.",
      do: "Try an antenna and ground away from the line and another carrier: if it stays, look at heater-cathode leakage of oscillator, mixer and RF tubes, and at the capacitors from the line to the chassis, which belong to safety first.",
      restsOn,
      hazards: ["line", "stored-charge"],
      state: "open-dead",
    },
  ];
}

/** Which multiples stand. */
function byLines({ normal, halfWave }: HumHeard): readonly Said[] {
  const [evens, odds] = [family(normal.lines, even), family(normal.lines, odd)];
  const [once, twice] = [normal.nominalHz, 2 * normal.nominalHz];
  const third = family(normal.lines, (o) => o === 3 || o === 9);
  const first = family(normal.lines, (o) => o === 1);
  const out: Said[] = [];
  const ripple = (why: string): Said => ({
    id: "hum-ripple-next",
    severity: "check",
    says: why,
    do: `Measure the ripple at B+ behind each filter capacitor, AC volts through a blocking capacitor: the sheet on B+ says what it should be, and whether any of it is at ${once} Hz.`,
    restsOn,
    hazards: ["b-plus", "stored-charge"],
    state: "open-live",
  });
  if (halfWave) {
    out.push(
      ripple(
        `A half-wave supply ripples at ${once} Hz itself: filter, heater-cathode leakage and a lead that picks it up can't be told apart by the sound.`,
      ),
    );
  } else if (above(evens, odds, clearlyDb)) {
    out.push(
      ripple(
        `Most of it is at ${twice} Hz and its multiples: ripple of a full-wave supply. A filter capacitor that has lost its capacitance is the usual cause.`,
      ),
    );
  } else if (above(odds, evens, clearlyDb)) {
    out.push(
      ripple(
        `Most of it is at ${once} Hz: one half of the rectifier or of its winding dead, heater-cathode leakage, or a lead that picks it up. The sound alone can't separate these: a rectifier that is half dead shows ${once} Hz at B+ as well, the others don't.`,
      ),
    );
  } else {
    out.push(
      ripple(
        `Both ${once} Hz and ${twice} Hz are there, neither far above the other: ripple of the supply, and something at the mains itself (heater-cathode leakage, a lead, or one half of the rectifier weak).`,
      ),
    );
  }
  if (above(third, first, 0))
    out.push(
      note(
        "hum-third",
        `${3 * once} Hz is stronger than ${once} Hz: a field from a transformer or a ground loop, whose mark is the odd multiples. Move the leads, turn the set, and listen.`,
      ),
    );
  return out;
}

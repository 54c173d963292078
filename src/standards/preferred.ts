/** Preferred numbers. Source: IEC 60063 (E series): 10^(n/24) to two figures, with the eight published exceptions. */
const exceptions: Readonly<Record<string, number>> = {
  "2.6": 2.7,
  "2.9": 3.0,
  "3.2": 3.3,
  "3.5": 3.6,
  "3.8": 3.9,
  "4.2": 4.3,
  "4.6": 4.7,
  "8.3": 8.2,
};

/** Values a decade of the E series, with the tolerance that each is made for. Source: IEC 60063. */
export type Series = 3 | 6 | 12 | 24 | 48 | 96 | 192;

/**
 * The values of one decade of an E series, 1 to under 10.
 *
 * @param perDecadeCount 3, 6, 12, 24, 48, 96 or 192
 * @returns values, ascending
 * @source IEC 60063: two figures up to E24 with eight exceptions, three figures from E48 on with one, 9.20; checked in preferred.published.test.ts
 */
export function eSeries(perDecadeCount: Series): number[] {
  if (perDecadeCount > 24)
    return Array.from({ length: perDecadeCount }, (_, i) => {
      const raw = (10 ** (i / perDecadeCount)).toFixed(2);
      return raw === "9.19" ? 9.2 : Number(raw);
    });
  return Array.from({ length: perDecadeCount }, (_, i) => {
    const raw = (10 ** ((i * 24) / perDecadeCount / 24)).toFixed(1);
    return exceptions[raw] ?? Number(raw);
  });
}

const scaled = (value: number): { readonly scale: number; readonly mantissa: number } => {
  const scale = 10 ** Math.floor(Math.log10(value) + 1e-12);
  return { scale, mantissa: value / scale };
};
/**
 * Next value of an E series at or above a value.
 *
 * @param value any unit, above 0
 * @param perDecadeCount of the series
 * @returns the preferred value, same unit
 * @source IEC 60063
 */
export function nextPreferred(value: number, perDecadeCount: Series): number {
  const { scale, mantissa } = scaled(value);
  const up = eSeries(perDecadeCount).find((v) => v >= mantissa * (1 - 1e-9));
  return Number(((up ?? 10) * scale).toPrecision(6));
}
/**
 * Last value of an E series at or under a value. Source: IEC 60063.
 *
 * @source IEC 60063
 */
export function lastPreferred(value: number, perDecadeCount: Series): number {
  const { scale, mantissa } = scaled(value);
  const down = eSeries(perDecadeCount).findLast((v) => v <= mantissa * (1 + 1e-9));
  return Number(((down ?? 1) * scale).toPrecision(6));
}
/** Rated currents of fuses, A. Source: R10 series of ISO 3 as IEC 60127 uses it; from memory. */
const fusesA: readonly number[] = [0.1, 0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3];
/** Next fuse at or above a current, A. */
export const nextFuseA = (ampere: number): number => fusesA.find((f) => f >= ampere) ?? 10;

/**
 * The value of an E series nearest to a value, by ratio. Source: IEC 60063.
 *
 * @source IEC 60063
 */
export function nearestPreferred(value: number, perDecadeCount: Series): number {
  const { scale, mantissa } = scaled(value);
  const off = (v: number): number => Math.abs(Math.log(v / mantissa));
  const best = [...eSeries(perDecadeCount), 10].reduce((a, b) => (off(b) < off(a) ? b : a));
  return Number((best * scale).toPrecision(6));
}

/** Rated voltages of capacitors, V. Source: R5 series of ISO 3 as the IEC 60384 family uses it; from memory. */
export const ratedVoltagesV: readonly number[] = [16, 25, 40, 63, 100, 160, 250, 400, 630, 1000, 1600, 2500, 4000];

/** Next rated voltage at or above a value, V; undefined above 4 kV. */
export const nextRatedV = (value: number): number | undefined => ratedVoltagesV.find((v) => v >= value);

/** Rated volts of electrolytics that are made. Common practice, no source. */
const electrolyticVoltagesV: readonly number[] = [16, 25, 35, 50, 63, 100, 160, 250, 350, 400, 450, 500, 550, 600];
/** Next rated volts of an electrolytic at or above a value; undefined above the highest. */
export const nextElectrolyticV = (value: number): number | undefined => electrolyticVoltagesV.find((v) => v >= value);

/** Rated volts of parts for B+, film, ceramic and electrolytic together. Common practice, no source; 400, 630, 1000, 1600 are of the R5 series. */
const partVoltagesV: readonly number[] = [160, 250, 400, 450, 500, 630, 800, 1000, 1600, 2500, 4000];
/** Next rated volts of a part for B+ at or above a value; undefined above 4 kV. */
export const nextPartV = (value: number): number | undefined => partVoltagesV.find((v) => v >= value);

/** Largest capacitance that a touchable part may hold at a voltage. Source: IEC 62368-1 table 5, energy source class 1; from memory. */
export const touchableCapacitance: readonly { readonly upToV: number; readonly largestF: number }[] = [
  { upToV: 60, largestF: 300e-9 },
  { upToV: 75, largestF: 170e-9 },
  { upToV: 100, largestF: 91e-9 },
  { upToV: 150, largestF: 41e-9 },
  { upToV: 200, largestF: 28e-9 },
  { upToV: 350, largestF: 12e-9 },
  { upToV: 500, largestF: 8e-9 },
  { upToV: 1000, largestF: 4e-9 },
];
export const largestTouchableF = (volts: number): number => touchableCapacitance.find((r) => volts <= r.upToV)?.largestF ?? 4e-9;

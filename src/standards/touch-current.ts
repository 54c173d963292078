/** Limits of touch current, A rms, each with where it comes from. Local code and the standard in force prevail. */
export const touchLimits = [
  { name: "0.5 mA", ampere: 0.5e-3, source: "IEC 62368-1, energy source class 1 (from memory)" },
  { name: "0.25 mA", ampere: 0.25e-3, source: "IEC 60950, accessible and unearthed (standards list, read)" },
  { name: "0.75 mA", ampere: 0.75e-3, source: "IEC 60335, portable class I (from memory)" },
] as const;
export const touchLimitNames = touchLimits.map((l) => l.name);
export const touchLimitOf = (name: string) => touchLimits.find((l) => l.name === name) ?? touchLimits[0];

/** Safety classes of capacitors at the line. Source: IEC 60384-14, impulse figures read but for X3 and Y3. */
export const lineClasses = [
  { name: "X1", use: "line to line, surges of 2.5 to 4 kV", impulseV: 4000 },
  { name: "X2", use: "line to line", impulseV: 2500 },
  { name: "Y1", use: "line to chassis, bridging double insulation", impulseV: 8000 },
  { name: "Y2", use: "line to chassis, 150 to 300 V", impulseV: 5000 },
  { name: "Y4", use: "line to chassis, under 150 V", impulseV: 2500 },
] as const;
/** Impulse of an X or Y2 part above 1 uF: the figure over the root of the capacitance in uF. Source: IEC 60384-14, read. */
export const impulseVOf = (name: string, farad: number): number => {
  const c = lineClasses.find((l) => l.name === name);
  const base = c?.impulseV ?? 0;
  return farad > 1e-6 && name !== "Y1" && name !== "Y4" ? base / Math.sqrt(farad * 1e6) : base;
};

/** Current of the body at touch: total resistance hand to hand, dry, of half and of one in twenty. Source: IEC 479-1 as quoted on pages, read. */
export const bodyOhm = [
  { volts: 25, half: 3250, oneInTwenty: 1750 },
  { volts: 50, half: 2625, oneInTwenty: 1450 },
  { volts: 100, half: 1875, oneInTwenty: 1200 },
  { volts: 125, half: 1625, oneInTwenty: 1125 },
  { volts: 220, half: 1350, oneInTwenty: 1000 },
] as const;
/** Energy and charge from which a discharge is counted as dangerous. Source: safety codes for laboratories and IEC 61010, from memory. */
export const dangerousJ = 1;
export const insulationLeastOhm = { value: 2e6, good: 20e6, source: "old practice: above 2 megohm, above 20 good; from memory" } as const;
export const bondMostOhm = { value: 0.1, source: "usual limit of bonding, from memory" } as const;

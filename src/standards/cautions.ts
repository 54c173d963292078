/** The usual cautions by hazard, each with where it comes from. They stand beside the step they belong to; local codes and licensed practice prevail. */
export interface Caution {
  readonly hazard: string;
  /** its name, for a place where the whole of it stands just above */
  readonly brief: string;
  readonly says: string;
  readonly source: string;
}

export const cautions: readonly Caution[] = [
  {
    hazard: "b-plus",
    brief: "B+ kills",
    says: "B+ kills. Power off, line plug out, capacitors discharged, then MEASURE before touching. If it must be on: one hand, insulated probe, nobody alone.",
    source: "common practice of service literature; IEC 62368-1 counts more than 60 V DC as hazardous (from memory)",
  },
  {
    hazard: "stored-charge",
    brief: "stored charge",
    says: "Capacitors hold their charge after the plug is out, and a bleeder may be open. Discharge through a resistor (1 to 2 kΩ, 10 W, insulated handle), then MEASURE before touching.",
    source: "common practice of service literature",
  },
  {
    hazard: "line",
    brief: "line voltage",
    says: "Line voltage kills. Plug out, not only switched off. Work on the line side belongs to a licensed person where local code says so.",
    source: "common practice; local electrical code prevails",
  },
  {
    hazard: "live-chassis",
    brief: "live chassis",
    says: "This chassis may be at line voltage. Use a line isolation transformer and prove the chassis dead to earth both ways of the plug. A live chassis is never earthed, and no instrument is clipped to it.",
    source: "common practice for transformerless sets; local electrical code prevails",
  },
  {
    hazard: "heat",
    brief: "heat",
    says: "Tubes, power resistors and transformers burn. Let them cool, or use a cloth.",
    source: "common practice, no source",
  },
];

/** Cautions in short, where each of them stands in full just above. */
export const asAbove = (of: readonly Caution[]): string => `As above: ${of.map((c) => c.brief).join(", ")}. Measure before touching.`;

/** Above this, a DC point is treated as able to hurt. */
export const hazardousDcV = { value: 60, source: "IEC 62368-1 energy source class 1 limit for DC, from memory" } as const;

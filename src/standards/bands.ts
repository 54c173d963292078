/**
 * Amateur band edges, for marks on a dial. National rules always prevail over these tables; check them before you transmit. Each row says whether its
 * source was read or is from memory.
 */
export interface BandEdges {
  readonly band: string;
  readonly lowHz: number;
  readonly highHz: number;
  readonly source: string;
  readonly flag: "read" | "memory";
}
/** When the tables were last looked at. */
export const bandsChecked = "2024-05-31 for 47 CFR 97.301 and 97.305; ITU Radio Regulations, edition 2020";
/** Sources of the rows; what is marked memory was not seen in print. */
const article5 = "ITU Radio Regulations, Article 5, edition 2020";
const iaru1 = "ITU Radio Regulations, Article 5, as given on the IARU Region 1 page on HF";
const cfr301 = "47 CFR 97.301";
const cfr = "47 CFR 97.301 (limits) and 97.305(c) (emissions), as of 31 May 2024";

const row = (band: string, lowKhz: number, highKhz: number, source: string, flag: BandEdges["flag"] = "read"): BandEdges => ({
  band,
  lowHz: lowKhz * 1e3,
  highHz: highKhz * 1e3,
  source,
  flag,
});

/** Bands that are the same in all three Regions. */
const everywhere: readonly BandEdges[] = [
  row("60 m", 5351.5, 5366.5, article5, "memory"),
  row("30 m", 10100, 10150, cfr301),
  row("20 m", 14000, 14350, cfr301),
  row("17 m", 18068, 18168, cfr301),
  row("15 m", 21000, 21450, cfr301),
  row("12 m", 24890, 24990, article5, "memory"),
  row("10 m", 28000, 29700, article5, "memory"),
];
const region1: readonly BandEdges[] = [
  ...everywhere,
  row("160 m", 1810, 1850, `${article5}; ${cfr301}`),
  row("80 m", 3500, 3800, iaru1),
  row("40 m", 7000, 7200, "IARU Region 1 spectrum page; New Zealand RSM notice of 11 February 2009"),
  row("6 m", 50000, 52000, article5, "memory"),
];
const region2: readonly BandEdges[] = [
  ...everywhere,
  row("160 m", 1800, 1850, article5, "memory"),
  row("160 m", 1850, 2000, article5, "memory"),
  row("80 m", 3500, 3750, iaru1),
  row("75 m", 3750, 4000, iaru1),
  row("40 m", 7000, 7300, "ITU Radio Regulations, footnote 5.142"),
  row("6 m", 50000, 54000, cfr301),
];
const region3: readonly BandEdges[] = [
  ...everywhere,
  row("160 m", 1800, 2000, `${article5}; ${cfr301}`),
  row("80 m", 3500, 3900, iaru1),
  row("40 m", 7000, 7200, "IARU Region 1 spectrum page; New Zealand RSM notice of 11 February 2009"),
  row("6 m", 50000, 54000, cfr301),
];

type Emission = "CW" | "data" | "phone";
/** What may be sent where: limits of the bands by 47 CFR 97.301, emission types within them by 97.305(c); the class of a licence narrows it further. */
const us: readonly (readonly [band: string, lowKhz: number, highKhz: number, sends: readonly Emission[], flag?: BandEdges["flag"]])[] = [
  ["160 m", 1800, 2000, ["CW", "data", "phone"]],
  ["80 m", 3500, 3600, ["CW", "data"]],
  ["75 m", 3600, 4000, ["CW", "phone"]],
  ["60 m channel", 5330.6, 5333.4, ["CW", "data", "phone"]],
  ["60 m channel", 5346.6, 5349.4, ["CW", "data", "phone"]],
  ["60 m channel", 5357.1, 5359.9, ["CW", "data", "phone"]],
  ["60 m channel", 5371.6, 5374.4, ["CW", "data", "phone"]],
  ["60 m channel", 5403.6, 5406.4, ["CW", "data", "phone"]],
  ["40 m", 7000, 7125, ["CW", "data"]],
  ["40 m", 7125, 7300, ["CW", "phone"]],
  ["30 m", 10100, 10150, ["CW", "data"]],
  ["20 m", 14000, 14150, ["CW", "data"]],
  ["20 m", 14150, 14350, ["CW", "phone"]],
  ["17 m", 18068, 18110, ["CW", "data"]],
  ["17 m", 18110, 18168, ["CW", "phone"]],
  ["15 m", 21000, 21200, ["CW", "data"]],
  ["15 m", 21200, 21450, ["CW", "phone"]],
  ["12 m", 24890, 24930, ["CW", "data"]],
  ["12 m", 24930, 24990, ["CW", "phone"]],
  ["10 m", 28000, 28300, ["CW", "data"]],
  ["10 m", 28300, 29700, ["CW", "phone"], "memory"],
  ["6 m", 50000, 50100, ["CW"], "memory"],
  ["6 m", 50100, 54000, ["CW", "data", "phone"], "memory"],
];
const usBands = (emission: Emission): readonly BandEdges[] =>
  us.flatMap(([band, low, high, sends, flag]) => (sends.includes(emission) ? [row(band, low, high, cfr, flag)] : []));

/** The Regions that the world's spectrum is shared out by, ITU Radio Regulations 5.2 to 5.9. */
export const regions = ["ITU Region 1", "ITU Region 2", "ITU Region 3"] as const;
/** Where each Region is, for whoever is asked. */
export const regionsSaid = "1 is Europe, Africa and the Middle East; 2 the Americas; 3 the rest of Asia and Oceania";
export const licences = [...regions, "US Part 97, CW", "US Part 97, data", "US Part 97, phone"] as const;
const tables: Readonly<Record<(typeof licences)[number], readonly BandEdges[]>> = {
  "ITU Region 1": region1,
  "ITU Region 2": region2,
  "ITU Region 3": region3,
  "US Part 97, CW": usBands("CW"),
  "US Part 97, data": usBands("data"),
  "US Part 97, phone": usBands("phone"),
};

/**
 * Bands of a region or licence, those that touch joined into one.
 *
 * @param licence one of `licences`
 * @returns bands, lowest first
 * @source rows of the table
 */
export function bandsOf(licence: (typeof licences)[number]): readonly BandEdges[] {
  const out: BandEdges[] = [];
  for (const b of [...tables[licence]].sort((a, c) => a.lowHz - c.lowHz)) {
    const last = out[out.length - 1];
    if (last && last.highHz === b.lowHz)
      out[out.length - 1] = {
        band: last.band === b.band ? b.band : `${last.band}, ${b.band}`,
        lowHz: last.lowHz,
        highHz: b.highHz,
        source: last.source === b.source ? b.source : `${last.source}; ${b.source}`,
        flag: last.flag === "read" ? b.flag : last.flag,
      };
    else out.push(b);
  }
  return out;
}

/**
 * The band that shares most of a range of frequencies; undefined where none touches it.
 *
 * @source the rows of this table, each with its own
 */
export function bandOver(licence: (typeof licences)[number], lowHz: number, highHz: number): BandEdges | undefined {
  const shared = (b: BandEdges): number => Math.min(b.highHz, highHz) - Math.max(b.lowHz, lowHz);
  const best = [...bandsOf(licence)].sort((a, b) => shared(b) - shared(a))[0];
  return best && shared(best) > 0 ? best : undefined;
}

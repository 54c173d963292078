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
export const bandsChecked = "2024-05-31 for 47 CFR 97.305; ITU Radio Regulations, edition 2020";
const r = (band: string, lowKhz: number, highKhz: number, source: string, flag: "read" | "memory"): BandEdges => ({
  band,
  lowHz: lowKhz * 1e3,
  highHz: highKhz * 1e3,
  source,
  flag,
});

const region1: readonly BandEdges[] = [
  r("160 m", 1810, 1850, "ITU Radio Regulations Article 5 (edition 2020 numbering) / 47 CFR 97.301(b) Region 1 column", "read"),
  r("80 m", 3500, 3800, "ITU Radio Regulations Art. 5 table as reproduced on the IARU Region 1 page on HF", "read"),
  r("60 m", 5351.5, 5366.5, "ITU Radio Regulations Article 5 (edition 2020 numbering) (WRC-15)", "memory"),
  r("40 m", 7000, 7200, "iaru-r1.org spectrum page; NZ RSM notice 11.02.2009", "read"),
  r("30 m", 10100, 10150, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("20 m", 14000, 14350, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("17 m", 18068, 18168, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("15 m", 21000, 21450, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("12 m", 24890, 24990, "ITU Radio Regulations Article 5 (edition 2020 numbering)", "memory"),
  r("10 m", 28000, 29700, "ITU Radio Regulations Article 5 (edition 2020 numbering)", "memory"),
  r("6 m", 50000, 52000, "ITU Radio Regulations Article 5 (edition 2020 numbering)", "memory"),
];
const region2: readonly BandEdges[] = [
  r("160 m", 1800, 1850, "ITU Radio Regulations Article 5 (edition 2020 numbering)", "memory"),
  r("160 m", 1850, 2000, "ITU Radio Regulations Article 5 (edition 2020 numbering)", "memory"),
  r("80 m", 3500, 3750, "ITU Radio Regulations Art. 5 table as reproduced on the IARU Region 1 page on HF", "read"),
  r("75 m", 3750, 4000, "ITU Radio Regulations Art. 5 table as reproduced on the IARU Region 1 page on HF", "read"),
  r("60 m", 5351.5, 5366.5, "ITU Radio Regulations Article 5 (edition 2020 numbering) (WRC-15)", "memory"),
  r("40 m", 7000, 7300, "ITU Radio Regulations, footnote 5.142", "read"),
  r("30 m", 10100, 10150, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("20 m", 14000, 14350, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("17 m", 18068, 18168, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("15 m", 21000, 21450, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("12 m", 24890, 24990, "ITU Radio Regulations Article 5 (edition 2020 numbering)", "memory"),
  r("10 m", 28000, 29700, "ITU Radio Regulations Article 5 (edition 2020 numbering)", "memory"),
  r("6 m", 50000, 54000, "47 CFR 97.301(a), Sept 2021 (hallikainen.org copy)", "read"),
];
const region3: readonly BandEdges[] = [
  r("160 m", 1800, 2000, "ITU Radio Regulations Article 5 (edition 2020 numbering) / 97.301(b) Region 3 column", "read"),
  r("80 m", 3500, 3900, "ITU Radio Regulations Art. 5 table as reproduced on the IARU Region 1 page on HF", "read"),
  r("60 m", 5351.5, 5366.5, "ITU Radio Regulations Article 5 (edition 2020 numbering) (WRC-15)", "memory"),
  r("40 m", 7000, 7200, "NZ RSM notice 11.02.2009; iaru-r1.org", "read"),
  r("30 m", 10100, 10150, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("20 m", 14000, 14350, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("17 m", 18068, 18168, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("15 m", 21000, 21450, "47 CFR 97.301(b) table (all Regions equal)", "read"),
  r("12 m", 24890, 24990, "ITU Radio Regulations Article 5 (edition 2020 numbering)", "memory"),
  r("10 m", 28000, 29700, "ITU Radio Regulations Article 5 (edition 2020 numbering)", "memory"),
  r("6 m", 50000, 54000, "47 CFR 97.301(a), Sept 2021 (hallikainen.org copy)", "read"),
];
const usCw: readonly BandEdges[] = [
  r("160 m", 1800, 2000, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("80 m", 3500, 3600, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("75 m", 3600, 4000, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5330.6, 5333.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5346.6, 5349.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5357.1, 5359.9, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5371.6, 5374.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5403.6, 5406.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("40 m", 7000, 7125, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("40 m", 7125, 7300, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("30 m", 10100, 10150, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("20 m", 14000, 14150, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("20 m", 14150, 14350, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("17 m", 18068, 18110, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("17 m", 18110, 18168, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("15 m", 21000, 21200, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("15 m", 21200, 21450, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("12 m", 24890, 24930, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("12 m", 24930, 24990, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("10 m", 28000, 28300, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("10 m", 28300, 29700, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("6 m", 50000, 50100, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "memory"),
  r("6 m", 50100, 54000, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "memory"),
];
const usData: readonly BandEdges[] = [
  r("160 m", 1800, 2000, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("80 m", 3500, 3600, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5330.6, 5333.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5346.6, 5349.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5357.1, 5359.9, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5371.6, 5374.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5403.6, 5406.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("40 m", 7000, 7125, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("30 m", 10100, 10150, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("20 m", 14000, 14150, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("17 m", 18068, 18110, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("15 m", 21000, 21200, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("12 m", 24890, 24930, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("10 m", 28000, 28300, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("6 m", 50100, 54000, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "memory"),
];
const usPhone: readonly BandEdges[] = [
  r("160 m", 1800, 2000, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("75 m", 3600, 4000, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5330.6, 5333.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5346.6, 5349.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5357.1, 5359.9, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5371.6, 5374.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("60 m channel", 5403.6, 5406.4, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("40 m", 7125, 7300, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("20 m", 14150, 14350, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("17 m", 18110, 18168, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("15 m", 21200, 21450, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("12 m", 24930, 24990, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("10 m", 28300, 29700, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "read"),
  r("6 m", 50100, 54000, "47 CFR 97.305(c), text current through 31 May 2024, READ as far as 10 m", "memory"),
];

export const licences = [
  "ITU Region 1",
  "ITU Region 2",
  "ITU Region 3",
  "US Part 97, CW",
  "US Part 97, data",
  "US Part 97, phone",
] as const;
const tables: Readonly<Record<(typeof licences)[number], readonly BandEdges[]>> = {
  "ITU Region 1": region1,
  "ITU Region 2": region2,
  "ITU Region 3": region3,
  "US Part 97, CW": usCw,
  "US Part 97, data": usData,
  "US Part 97, phone": usPhone,
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

/** The band that shares most of a range of frequencies; undefined where none touches it. */
export function bandOver(licence: (typeof licences)[number], lowHz: number, highHz: number): BandEdges | undefined {
  const shared = (b: BandEdges): number => Math.min(b.highHz, highHz) - Math.max(b.lowHz, lowHz);
  const best = [...bandsOf(licence)].sort((a, b) => shared(b) - shared(a))[0];
  return best && shared(best) > 0 ? best : undefined;
}

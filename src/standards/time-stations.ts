/** Standard-frequency stations on short wave. Source and flag a row; frequencies in Hz. Check that a station is on the air before relying on it. */
export interface TimeStation {
  readonly id: string;
  readonly place: string;
  readonly hz: readonly number[];
  readonly transmitted: string;
  readonly trap: string;
  readonly source: string;
  readonly flag: "read" | "memory";
}
const mhz = (...f: number[]): number[] => f.map((x) => Math.round(x * 1e6));
export const timeStations: readonly TimeStation[] = [
  {
    id: "WWV",
    place: "Fort Collins, USA",
    hz: mhz(2.5, 5, 10, 15, 20),
    transmitted: "1e-12",
    trap: "tones of 440, 500 and 600 Hz sit on the note: use a minute without one",
    source: "NIST station descriptions; NAVEDTRA 14193 table 3-1",
    flag: "read",
  },
  {
    id: "WWVH",
    place: "Kauai, USA",
    hz: mhz(2.5, 5, 10, 15),
    transmitted: "1e-12",
    trap: "shares its channels: two carriers flutter by Doppler even with the markers off",
    source: "NIST station descriptions",
    flag: "read",
  },
  {
    id: "CHU",
    place: "Ottawa, Canada",
    hz: mhz(3.33, 7.85, 14.67),
    transmitted: "5e-12",
    trap: "off the 100 kHz raster: zero beat needs a marker spacing of 10 kHz; upper sideband with full carrier",
    source: "NRC description, as quoted",
    flag: "read",
  },
  {
    id: "RWM",
    place: "Moscow, Russia",
    hz: mhz(4.996, 9.996, 14.996),
    transmitted: "2e-12 class",
    trap: "4 kHz below the other stations' channels: a 4 kHz note is no error; plain carrier in minutes 0 to 8 and 30 to 38",
    source: "public lists; accuracy from memory",
    flag: "read",
  },
  {
    id: "BPM",
    place: "Pucheng, China",
    hz: mhz(2.5, 5, 10, 15),
    transmitted: "1e-12",
    trap: "shares its channels: carriers flutter by Doppler",
    source: "annex to Rec. ITU-R TF.768 (May 2014); accuracy from memory",
    flag: "read",
  },
  {
    id: "HLA",
    place: "Daejeon, Korea",
    hz: mhz(5),
    transmitted: "1e-11",
    trap: "not on the air all day",
    source: "annex to Rec. ITU-R TF.768 (May 2014); accuracy from memory",
    flag: "read",
  },
];

/**
 * Where strong broadcast carriers stand, for what an image or a feed-through will meet. National plans differ.
 * Source: ITU Radio Regulations, Article 5 (footnotes 5.134 and the rows of the table) as read in copies on the web; medium and long waves by Region.
 */
export interface Crowded {
  readonly name: string;
  readonly lowHz: number;
  readonly highHz: number;
}
const mhz = (name: string, low: number, high: number): Crowded => ({ name, lowHz: low * 1e6, highHz: high * 1e6 });
export const broadcastBands: readonly Crowded[] = [
  mhz("long-wave broadcasting", 0.1485, 0.2835),
  mhz("medium-wave broadcasting", 0.525, 1.705),
  mhz("49 m broadcasting", 5.9, 6.2),
  mhz("41 m broadcasting", 7.2, 7.45),
  mhz("31 m broadcasting", 9.4, 9.9),
  mhz("25 m broadcasting", 11.6, 12.1),
  mhz("22 m broadcasting", 13.57, 13.87),
  mhz("19 m broadcasting", 15.1, 15.8),
  mhz("16 m broadcasting", 17.48, 17.9),
  mhz("13 m broadcasting", 21.45, 21.85),
  mhz("11 m broadcasting", 25.67, 26.1),
];

/** Lamps side by side, each glowing by its volts: what the eye sees. */
export interface Lamp {
  /** what it shows, such as `a sound set` */
  readonly label: string;
  /** share of its rated volts, 0 to 1 */
  readonly share: number;
  /** its volts and how it looks, in words */
  readonly says: string;
  /** whether it is what was read at the set */
  readonly read?: true;
}
export interface Lamps {
  readonly kind: "lamps";
  readonly id: string;
  readonly title: string;
  readonly lamps: readonly Lamp[];
  readonly example: boolean;
}

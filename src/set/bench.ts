import type { DialPoint } from "../readings/zero-beats";
import type { Estimate } from "../units/draws";
import type { Quantity } from "../units/quantity";
import type { Row } from "./columns";
import type { DescribedStrip } from "./strip";

/** What a sheet may ask of a set: its quantities and choices with the readings in force. The job builds it; sheets see nothing else. */
export interface Bench {
  /** a quantity of the set by its path, such as `line.voltage` or `fittings.qm.cableLength` */
  readonly quantity: (path: string) => Quantity | undefined;
  readonly choice: (path: string) => string | undefined;
  /** whether what stands at a path was never said, only taken as usual */
  readonly isGuessed?: (path: string) => boolean;
  /** rows that were typed and are kept at a path, by the columns of its address */
  readonly rows: (path: string) => readonly Row[] | undefined;
  /** the strip without what accessories hang on it */
  readonly strip: () => DescribedStrip | undefined;
  /** the strip as it stands now */
  readonly stripAsFitted: () => DescribedStrip | undefined;
  /** zero beats in force on a band, `bands.80`, or at one set-point of it, `bands.80:3.5 MHz`; the latest set-point where none is named */
  readonly points: (at: string) => readonly DialPoint[];
  /** rows that were written on a record card, by its columns, as text */
  readonly card: (id: string) => readonly Readonly<Record<string, string>>[];
  /** what was written in a field of a card */
  readonly cardField: (id: string, field: string) => string | undefined;
  readonly tubes: () => readonly {
    readonly socket: string;
    readonly type: string;
    readonly function: string;
    readonly stage: string;
  }[];
  /** kinds of the set's stages, in the order of the signal */
  readonly stageKinds: () => readonly string[];
  /** every range that the set tunes */
  readonly bands: () => readonly {
    readonly label: string;
    readonly low: number;
    readonly high: number;
    readonly oscillator: "above" | "below";
  }[];
  readonly estimate: (id: string) => Estimate | undefined;
  /** path of the subject that the sheet was asked about */
  readonly at: string;
}

/** A bench with nothing on it: a sheet then runs on its own defaults. */
export const emptyBench: Bench = {
  quantity: () => undefined,
  choice: () => undefined,
  rows: () => undefined,
  strip: () => undefined,
  stripAsFitted: () => undefined,
  points: () => [],
  card: () => [],
  cardField: () => undefined,
  tubes: () => [],
  stageKinds: () => [],
  bands: () => [],
  estimate: () => undefined,
  at: "",
};

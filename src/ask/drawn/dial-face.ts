/** A dial as a dial: its law as marks, what is known of it as a band along the scale, where it may be set, where the pointer stands. Readings of the scale. */
export interface DialFace {
  readonly kind: "dial";
  readonly id: string;
  readonly title: string;
  /** ends of the scale, and what its readings are, such as `divisions` */
  readonly scale: { readonly from: number; readonly to: number; readonly says: string };
  /** where the law puts a frequency; some with their words */
  readonly marks: readonly { readonly at: number; readonly text?: string }[];
  /** what was heard: markers at zero beat */
  readonly beats: readonly { readonly at: number; readonly says: string }[];
  /** half-widths of what is not known, along the scale, and how wide that is in words */
  readonly doubt?: { readonly along: readonly { readonly at: number; readonly half: number }[]; readonly says: string };
  /** settings that are certain to be inside, and the edges themselves */
  readonly window?: { readonly from: number; readonly to: number; readonly says: string };
  readonly edges: readonly { readonly at: number; readonly says: string }[];
  readonly pointer?: { readonly at: number; readonly half: number; readonly says: string };
  readonly example: boolean;
}

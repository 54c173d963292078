/** What a filter holds after the switch is off, as columns that fall. SI. */
export interface ChargeColumn {
  /** as the bench says it, such as `bleeder intact` */
  readonly label: string;
  /** volts when the switch goes off, and how they fall; nothing where they stay */
  readonly fromV: number;
  readonly falls: readonly { readonly afterS: number; readonly volts: number }[];
  /** a few words below it */
  readonly says: string;
}
export interface Charge {
  readonly kind: "charge";
  readonly id: string;
  readonly title: string;
  readonly columns: readonly ChargeColumn[];
  /** above this volts can hurt */
  readonly limitV: number;
  readonly example: boolean;
}

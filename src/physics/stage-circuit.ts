/** A tube by its current law near one data-book point: Ik = K (Vgk + Vc + Vdk/mu)^1.5, with the screen driving a pentode and the plate a triode. */
export interface TubeLaw {
  readonly kind: "pentode" | "triode";
  /** A/V^1.5 */
  readonly perveance: number;
  readonly mu: number;
  /** part of the cathode current that the plate takes while its volts are well up; 1 in a triode */
  readonly plateShare: number;
  /** power of the law, 1.5 where not said; and volts over which it leaves cutoff gradually, 0 where not said */
  readonly exponent?: number;
  readonly softV?: number;
  /** Vc, volts that drive a current with grid and screen at the cathode: contact potential and the speed that electrons leave with; 0 where not said */
  readonly contactV?: number;
}

/** A stage's DC circuit. SI; conductances of 0 for what is not there. */
export interface Stage {
  readonly tube: TubeLaw;
  readonly supplyV: number;
  readonly plateOhm: number;
  /** part of it that feeds a decoupling capacitor, before the load; nothing where there is none */
  readonly feedOhm?: number;
  /** part of the supply's volts that a leak of that capacitor leaves behind the feed with nothing drawn; all of it where not said */
  readonly decoupledPart?: number;
  readonly screenOhm: number;
  readonly cathodeOhm: number;
  readonly gridOhm: number;
  /** volts of the line that the grid returns to: AVC, bias, or 0 */
  readonly returnV: number;
  /** leaks to the chassis at screen and cathode, S */
  readonly screenLeak: number;
  readonly cathodeLeak: number;
  /** leak from the plate of the stage before to the grid, S, and that plate's volts */
  readonly couplingLeak: number;
  readonly beforeV: number;
  /** out of the grid, of gas or grid emission, A */
  readonly gridCurrentA?: number;
}
export const nodes = ["supply", "plate", "screen", "cathode", "grid"] as const;
export type Node = (typeof nodes)[number];
export type Volts = Readonly<Record<Node, number>>;

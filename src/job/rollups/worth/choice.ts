import type { Hazard } from "../../../ask/findings";
import type { State } from "../../../standards/cautions";
import type { Taking } from "./costs";

/** Something that a person may do now, free of what safety and dependency fix: what it is worth, and what it takes by itself. */
export interface Choice {
  readonly id: string;
  readonly kind: "test" | "mend" | "beat" | "measure" | "state" | "step";
  /** as an act: `lift the screen resistor and measure it` */
  readonly does: string;
  /** where, as a person calls it; empty where it is the whole set */
  readonly place: string;
  /** in one line, why it is worth its time */
  readonly why: string;
  /** how it is done, where that is known */
  readonly how?: string;
  /** what of the job's uncertainties it is expected to remove, each as a part of its own variance or, of causes, of its entropy */
  readonly removes: readonly { readonly of: string; readonly share: number }[];
  readonly wants: State;
  readonly warm: boolean;
  readonly hazards: readonly Hazard[];
  readonly takes: Pick<Taking, "hands" | "itself">;
  /** the step or fault that somebody may wait for */
  readonly about: string;
  /** how it is asked or recorded, after `fettle` and with the job's name as JOB */
  readonly with: string;
}
/**
 * Everything that a choice is expected to remove, added up: each uncertainty counts alike.
 * @source house rule
 */
export const removedBy = (c: Pick<Choice, "removes">): number => c.removes.reduce((s, r) => s + r.share, 0);
/**
 * A share as it is told: never certain.
 * @source house rule
 */
export const percent = (share: number): string => `${Math.round(100 * Math.min(share, 0.99))} %`;

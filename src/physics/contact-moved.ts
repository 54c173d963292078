import type { TubeLaw } from "./tube-stage";

/**
 * A law with more of its drive by contact potential and less by the plate or screen: the same current where it stands now.
 *
 * @param tube the law
 * @param driveV volts from its cathode to its screen, or its plate in a triode, where the current is to stay
 * @param byV added to the contact potential, V; no more is taken than half of what plate or screen drive
 * @returns the law
 * @source house frame: a data-book point alone does not tell the two apart
 */
export function contactMoved(tube: TubeLaw, driveV: number, byV: number): TubeLaw {
  const by = Math.min(byV, (0.5 * driveV) / tube.mu);
  if (!(by > 0)) return tube;
  return { ...tube, mu: driveV / (driveV / tube.mu - by), contactV: (tube.contactV ?? 0) + by };
}

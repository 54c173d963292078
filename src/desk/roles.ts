/**
 * Who somebody is to a shop that asks: an owner holds a link to one report, a bench has an account and works on jobs, a keeper has one and keeps the shop.
 * Each may do all that those before it may.
 */
export const roles = ["owner", "bench", "keeper"] as const;
export type Role = (typeof roles)[number];

/**
 * Whether a role suffices.
 *
 * @param has whose is asked; undefined of somebody who has not said who he is
 * @param least what is wanted at least
 */
export const suffices = (has: Role | undefined, least: Role): boolean => has !== undefined && roles.indexOf(has) >= roles.indexOf(least);

import type { SetDescription } from "./describe";

/**
 * A guess that was said since is none any more: at its path, at the bulb of a half, or at the list of a member.
 *
 * @param set the set; changed
 * @param path that something was said of
 * @source house rule
 */
export function settleGuess(set: SetDescription, path: string): void {
  if (set.guessed === undefined) return;
  const bulb = /^(tubes\.V\d+)[abc]?(?:\.|$)/.exec(path)?.[1];
  for (const said of [path, path.split(".")[0], ...(bulb === undefined ? [] : [bulb])])
    if (said !== "tubes" || path === "tubes") delete set.guessed[said];
}

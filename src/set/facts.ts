import { chassisFacts, fittingStates, isolationFacts, stageKinds } from "./words";

/** Places of a set where only certain words may stand, and which. */
const places: readonly (readonly [path: RegExp, words: readonly string[]])[] = [
  [/^chassis\.state$/, chassisFacts],
  [/^chassis\.isolation$/, isolationFacts],
  [/^stages\.[^.]+\.kind$/, stageKinds],
  [/^bands\.[^.]+\.oscillator$/, ["above", "below"]],
  [/^fittings\.[^.]+\.state$/, fittingStates],
];
/** The words that a fact at a path may be; undefined where any text may stand. */
export const factWords = (path: string): readonly string[] | undefined => places.find(([at]) => at.test(path))?.[1];

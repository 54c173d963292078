import { answer } from "../../ask/answer";
import type { Answer, AnsweredChoice, Ask } from "../../ask/answered";
import type { AnySheet } from "../../ask/contract";
import { sayFigure } from "../../ask/say";
import { own } from "../../units/own";
import { printValue } from "../../units/print";
import { benchOf, type JobView } from "../view";

/** Something that was never said and taken as usual, and how a person says it. */
export interface Guess {
  readonly path: string;
  readonly is: string;
  readonly from: string;
  /** the command that says it, without its first word and the job */
  readonly say: readonly [command: string, rest: string];
}
/** A guess that an answer leans on: what would be otherwise if it is wrong. */
export interface Leaning extends Guess {
  readonly matters: string;
}

function sayOf(path: string): Guess["say"] {
  const socket = /^tubes\.(V\d+)$/.exec(path)?.[1];
  if (socket !== undefined) return ["amend", `tubes ${socket} function=WORDS`];
  if (path === "tubes") return ["amend", "tubes V1 type=TYPE"];
  if (path === "strip.cans") return ["amend", "cans can1"];
  if (path === "chassis.state") return ["chassis", "STATE"];
  return ["set", `${path}=VALUE`];
}
/**
 * What of a set was guessed and not said since.
 *
 * @param view the job
 * @returns guesses, in the order in which they were made
 * @source house frame
 */
export const guessesOf = (view: JobView): readonly Guess[] =>
  Object.entries(view.set.guessed ?? {}).map(([path, { is, from }]) => ({ path, is, from, say: sayOf(path) }));

const quick: Ask = { draws: 10, points: 21, quick: true };
/** How a key result would stand if a choice were another: the one that leaves its interval farthest. */
function otherwise(view: JobView, sheet: AnySheet, a: Answer, { path: name, options, value }: AnsweredChoice): string | undefined {
  const found = options
    .filter((o) => o !== value)
    .flatMap((option) => {
      const other = answer(sheet, benchOf(view, a.at), { ...quick, overrides: { [name]: option } });
      if (!other.ok) return [];
      return sheet.key.flatMap((key) => {
        const [here, there] = [own(a.results, key), own(other.value.results, key)?.value];
        if (here?.low == null || here.high == null || there == null || (there >= here.low && there <= here.high)) return [];
        const off = Math.max(here.low - there, there - here.high) / Math.max(here.high - here.low, Number.MIN_VALUE);
        return [
          {
            off,
            says: `${here.meaning}: ${sayFigure(here)}; with ${option} about ${printValue(there, here.dimension, Math.abs(there) / 20)}`,
          },
        ];
      });
    });
  return found.sort((x, y) => y.off - x.off)[0]?.says;
}

/**
 * Guesses that an answer leans on: a choice that would take a key result out of its interval if it were another, the cans of a strip that the question
 * asks for, the tube of the stage that it is about. Quantities that were guessed are named by the shares of the answer itself.
 *
 * @param view the job
 * @param sheet the question
 * @param a its answer
 * @returns what to say first; nothing where no guess matters
 * @source house frame
 */
export function guessesBehind(view: JobView, sheet: AnySheet, a: Answer): readonly Leaning[] {
  const stage = /^stages\.(.+)$/.exec(a.at)?.[1];
  const sockets = view.set.tubes.filter((t) => t.stage === stage).map((t) => t.socket.replace(/[abc]$/, ""));
  return guessesOf(view).flatMap((g): readonly Leaning[] => {
    const choice = a.choices.find((c) => own(sheet.inputs, c.path)?.at === g.path);
    const matters = choice
      ? otherwise(view, sheet, a, choice)
      : g.path === "strip.cans" && Object.values(sheet.inputs).some((i) => i.kind === "model")
        ? "the strip is worked out with that number of cans"
        : sockets.some((s) => g.path === `tubes.${s}`)
          ? "the stage is judged as that tube in that duty"
          : undefined;
    return matters === undefined ? [] : [{ ...g, matters }];
  });
}

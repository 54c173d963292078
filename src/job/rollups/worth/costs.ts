import { type KindOfWork, minutesAt, usualTakes } from "../../../set/addresses/minutes";
import { quantityAt } from "../../../set/paths";
import { isOpen, type State } from "../../../standards/cautions";
import { middle, type Range } from "../../../standards/minutes";
import { standingOf, waitingFor } from "../../sitting";
import type { JobView } from "../../view";

const none: Range = [0, 0];
export const plus = (a: Range, b: Range): Range => [a[0] + b[0], a[1] + b[1]];

/** How the set stands when a person asks what to do. */
export interface AsItStands {
  readonly open: boolean;
  /** unplugged, discharged and measured under the open case, and nothing done since */
  readonly dead: boolean;
  /** min until it is warm; 0 where it is */
  readonly warmIn: Range;
}
/** What a person says of the set, in place of what is on record. */
export interface SaidOfIt {
  readonly closed?: boolean | undefined;
  readonly warm?: boolean | undefined;
}
/** Step that warms the set up. */
const warming = "17";

/**
 * How the set stands by the record: as it was left last, and warming up or warm where that is waited for.
 *
 * @param view the job
 * @param now ISO 8601
 * @param said what counts before the record
 * @returns case, power, warmth; closed and cold where nothing is on record
 * @source house rule
 */
export function asItStands(view: JobView, now: string, said: SaidOfIt = {}): AsItStands {
  const left = standingOf(view);
  const open = !said.closed && left?.entry.case === "open";
  const running = waitingFor(view, now).find((w) => w.about === warming && w.until !== undefined);
  const toGo = running?.until === undefined ? undefined : (Date.parse(running.until) - Date.parse(now)) / 60_000;
  const usual = usualTakes("turn", "warm").hands;
  const onFor = left?.entry.power === "on" ? (Date.parse(now) - Date.parse(left.entry.at)) / 60_000 : 0;
  const cold: Range = onFor > 0 ? [Math.max(0, usual[0] - onFor), Math.max(0, usual[1] - onFor)] : takesFor(view, "turn", "warm").hands;
  return {
    open,
    dead: open && left?.entry.power === "unplugged" && left.since === 0,
    warmIn: said.warm ? none : toGo !== undefined ? [toGo, toGo] : cold,
  };
}

/** What a piece of work takes, min: hands on it, and what it takes besides by itself. */
export interface Taking {
  readonly what: string;
  readonly hands: Range;
  readonly itself: Range;
}
/**
 * What a piece of work takes here: the person's own time where one stands in the job, else what is usual.
 *
 * @param view the job
 * @param kind of work
 * @param id of it
 * @returns min
 * @source the job; else common practice, no source
 */
export function takesFor(view: JobView, kind: KindOfWork, id: string): Taking {
  const { what, hands, itself = none } = usualTakes(kind, id);
  const own = quantityAt(view.set, minutesAt(kind, id));
  if (!own) return { what, hands, itself };
  const { spread } = own;
  const half = spread.shape === "exact" ? 0 : spread.shape === "normal" ? 2 * spread.u : spread.half;
  return { what, hands: [Math.max(0, own.value - half) / 60, (own.value + half) / 60], itself };
}

/** What a choice costs as the set stands: its own work and what must come before it. */
export interface Cost {
  readonly hands: Range;
  readonly itself: Range;
  /** what must be done to the set first, in words */
  readonly turns: readonly string[];
  /** all of it at the middle of its range, min */
  readonly minutes: number;
}
/**
 * What a piece of work costs, with opening the set, making it safe, putting it on and warming it up.
 *
 * @param view the job, whose own times count
 * @param now how the set stands
 * @param wants the state that the work wants
 * @param warm whether it wants the set warm
 * @param own what the work itself takes
 * @returns min
 * @source common practice, no source; the job's own times where they are stored
 */
export function costOf(view: JobView, now: AsItStands, wants: State, warm: boolean, own: Pick<Taking, "hands" | "itself">): Cost {
  const turn = (id: string): Taking => takesFor(view, "turn", id);
  const turns = [
    ...(isOpen(wants) && !now.open ? [turn("open")] : []),
    // whatever is opened is made dead and measured first, live work too: the meter is clipped on then
    ...(isOpen(wants) && !now.dead ? [turn("dead")] : []),
    ...(wants === "open-live" ? [turn("live")] : []),
  ];
  const cold = warm && now.warmIn[1] > 0;
  const hands = turns.reduce((sum, t) => plus(sum, t.hands), own.hands);
  const itself = cold ? plus(own.itself, now.warmIn) : own.itself;
  return {
    hands,
    itself,
    turns: [...turns.map((t) => t.what), ...(cold ? ["let it warm up"] : [])],
    minutes: middle(hands) + middle(itself),
  };
}

import { carefully, setFigures } from "../../../ask/care";
import { isSafeToJoin } from "../../../ask/chassis";
import type { Hazard } from "../../../ask/findings";
import { type Batch, together } from "../../../infer/worth/together";
import { type Caution, isOpen, type State } from "../../../standards/cautions";
import { middle } from "../../../standards/minutes";
import { type NextItem, nextSteps } from "../../next";
import { waitsOfSteps } from "../../open-steps";
import { pageSigned } from "../../safety-record";
import { waitingFor } from "../../sitting";
import { benchOf, type JobView } from "../../view";
import { type Choice, removedBy } from "./choice";
import { type AsItStands, asItStands, type Cost, costOf, type SaidOfIt, takesFor } from "./costs";
import { edgeChoices } from "./edges";
import { figuresOf, sweepChoices, valueChoices } from "./figures";
import { type Remaining, remainingOf } from "./remaining";
import { stepChoices } from "./steps";
import { supplyTieOf } from "./supply";
import { soughtOf, stopsOf, tiesOf } from "./ties";

/** A choice with what it costs as the set stands. */
export interface Weighed extends Omit<Choice, "takes"> {
  readonly cost: Cost;
  /** what it is expected to remove, each uncertainty as 1, an hour of its cost */
  readonly anHour: number;
  readonly cautions: readonly Caution[];
}
/** Several choices that want the set in one state, at one opening: worth more an hour so than any of them alone. */
export interface AtOnce extends Batch {
  readonly wants: State;
  /** what each does and where, in the order of the list */
  readonly does: readonly string[];
  readonly turns: readonly string[];
}
export interface Waited {
  readonly for: string;
  readonly until?: string;
  readonly about: string;
  /** what could be done but for it, in words */
  readonly holds: readonly string[];
}
export interface Worth {
  /** what is said before all else: switch off */
  readonly stop: readonly string[];
  /** safety steps that are free now: they come first, and nothing is weighed against them */
  readonly first: readonly NextItem[];
  /** what may be done besides, most worth an hour first */
  readonly choices: readonly Weighed[];
  /** several of them at one opening, where that is worth more an hour than the first alone */
  readonly atOnce?: AtOnce;
  readonly waiting: readonly Waited[];
  readonly remaining: Remaining;
  /** how many choices are left out: they wait for a safety step, want the set open, or take longer */
  readonly leftOut: { readonly safety: number; readonly open: number; readonly long: number };
}
/** What a person says before asking what is worth doing. */
export interface Asking extends SaidOfIt {
  /** how long there is, min */
  readonly minutes?: number | undefined;
}

/** Safety steps that hands must have behind them before the set is in a state. */
const before: Readonly<Record<State, readonly string[]>> = {
  desk: [],
  panel: ["02", "03", "04", "08"],
  "open-dead": ["02", "03"],
  "open-live": ["02", "03", "04", "08"],
};
const isProved = (view: JobView, step: string): boolean => view.steps.find((s) => s.id === step)?.state === "proven";
/** Whether the safety steps that a choice rests on are proved; a step's own rests are looked at by the graph. */
const isSafe = (view: JobView, c: Choice): boolean => c.kind === "step" || before[c.wants].every((s) => isProved(view, s));

/**
 * What is worth doing now: safety first, then every free choice with what it costs as the set stands and what it is expected to remove of the
 * uncertainties that matter, which are the cause of each fault, the band edges, and the figures of the hand-over.
 *
 * @param view the job
 * @param now ISO 8601
 * @param asking time that there is, and how the set stands where the record doesn't say
 * @returns the list, what is waited for, and the remaining work
 * @source Heckerman, Breese and Rommelse 1995 for causes; expected variance for the rest; see infer/worth
 */
export function worthOf(view: JobView, now: string, asking: Asking = {}): Worth {
  const sought = soughtOf(view);
  const atSupply = supplyTieOf(view);
  const ties = [...tiesOf(view, sought), ...(atSupply ? [atSupply] : [])];
  const known = figuresOf(view);
  const stands = asItStands(view, now, asking);
  const waits = waitingFor(view, now);
  const all = [
    ...ties.flatMap((t) => t.choices),
    ...edgeChoices(view),
    ...stepChoices(view, known),
    ...sweepChoices(view, known),
    ...valueChoices(view, known),
  ];
  const held = (c: Choice): boolean => waits.some((w) => w.about !== "" && w.about === c.about);
  const safe = all.filter((c) => isSafe(view, c));
  const free = safe.filter((c) => !held(c));
  const reached = asking.closed ? free.filter((c) => !isOpen(c.wants)) : free;
  const weighed = reached
    .map((c) => ({ c, cost: costOf(view, stands, c.wants, c.warm, c.takes) }))
    .map(({ c, cost }) => ({ c, cost, anHour: (60 * removedBy(c)) / Math.max(1, cost.minutes) }))
    // what removes nothing stands behind, in the order of the list of steps
    .sort((a, b) => b.anHour - a.anHour);
  const short = asking.minutes === undefined ? weighed : weighed.filter((w) => w.cost.minutes <= (asking.minutes ?? 0));
  const waitsOn = waitsOfSteps(view);
  const atOnce = atOnceOf(view, stands, short, asking.minutes);
  return {
    stop: [...stopsOf(sought), ...(atSupply?.stop ?? [])],
    first: nextSteps(view).filter((i) => i.safety && waitsOn.get(i.step)?.size === 0),
    choices: withCautions(view, short),
    ...(atOnce ? { atOnce } : {}),
    waiting: waits.map((w) => ({
      for: w.for,
      about: w.about,
      ...(w.until === undefined ? {} : { until: w.until }),
      holds: all.filter((c) => w.about !== "" && c.about === w.about).map((c) => c.does),
    })),
    remaining: remainingOf(view, ties, stands),
    leftOut: { safety: all.length - safe.length, open: free.length - reached.length, long: weighed.length - short.length },
  };
}

type Costed = { readonly c: Choice; readonly cost: Cost; readonly anHour: number };
/** Kinds of choices that tell something and leave the set as it is: they may be made one after the other. */
const telling: readonly Choice["kind"][] = ["test", "measure", "beat"];
/**
 * Several at one opening. With the set dead, opening it and making it dead is paid once; a live reading is clipped on dead each time, so there only
 * the opening is.
 */
function atOnceOf(view: JobView, stands: AsItStands, listed: readonly Costed[], mostMinutes: number | undefined): AtOnce | undefined {
  const own = ({ c }: Costed): number => middle(c.takes.hands) + middle(c.takes.itself);
  const batches = (["open-dead", "open-live"] as const).flatMap((wants): AtOnce[] => {
    const here = listed.filter(({ c, cost }) => c.wants === wants && telling.includes(c.kind) && cost.turns.length > 0);
    const [first] = here;
    if (!first || here.length < 2) return [];
    const way = wants === "open-dead" ? first.cost.minutes - own(first) : stands.open ? 0 : middle(takesFor(view, "turn", "open").hands);
    const pieces = here.map((x) => ({ id: x.c.id, minutes: x.cost.minutes - way, removes: x.c.removes }));
    const batch = together(pieces, way, mostMinutes);
    if (!batch || batch.ids.length < 2) return [];
    const does = here.filter((x) => batch.ids.includes(x.c.id)).map(({ c }) => `${c.does}${c.place ? `, ${c.place}` : ""}`);
    return [{ ...batch, wants, does, turns: first.cost.turns }];
  });
  const [best] = batches.sort((a, b) => b.anHour - a.anHour);
  return best && best.anHour > (listed[0]?.anHour ?? 0) ? best : undefined;
}

/** Each choice stands by itself: whoever takes the third has not done the first two, so each says in short what is to be heeded. */
function withCautions(
  view: JobView,
  listed: readonly { readonly c: Choice; readonly cost: Cost; readonly anHour: number }[],
): readonly Weighed[] {
  const bench = benchOf(view, "");
  const signed = (bench.cardField("safety-in", pageSigned) ?? "").trim() !== "";
  const figures = { ...setFigures(bench), signed };
  const proved = isSafeToJoin(view.chassis);
  return listed.map(({ c: { takes: _takes, ...c }, cost, anHour }) => {
    const hazards: readonly Hazard[] = proved ? c.hazards.filter((h) => h !== "live-chassis") : [...c.hazards, "line", "live-chassis"];
    const heed = isOpen(c.wants) || c.hazards.includes("line") ? hazards : [];
    return { ...c, cost, anHour, cautions: carefully(figures)({ state: c.wants, hazards: heed }) };
  });
}

import type { State } from "../standards/cautions";
import type { Issue } from "../units/issue";
import type { AnySheet, Chance, GroundOn, SheetOf } from "./contract";
import type { Strips, Table } from "./drawings";
import type { Drafting } from "./drawn/drafting";
import type { Draws, Sketch } from "./drawn/pictures";
import type { Finding, Hazard, Part, Severity } from "./findings";
import type { Inputs, Plain } from "./inputs";
import type { Arrays, Curves, NoValue, Results, Solved } from "./results";

/** What a question asks for and what it gives; nothing in it computes. */
type Declared<I extends Inputs, R extends Results, C extends Curves> = Omit<
  SheetOf<I, R, C>,
  "prepare" | "learns" | "tables" | "strips" | "drawing" | "headline" | "findings" | "parts" | "theory"
> &
  (Placed | { readonly place?: undefined });
/** A question about a place inside the set: what hands meet there is drawn. */
interface Placed {
  /** what can hurt where its steps are carried out: on every finding that asks for one, where it says nothing else */
  readonly place: Finding["hazards"];
  readonly draws: Draws;
}
/**
 * Declares a question: its names are checked against each other here.
 *
 * @param d everything but what computes
 * @returns the same, with its types
 * @source house frame
 */
export const declare = <const I extends Inputs, const R extends Results, const C extends Curves>(d: Declared<I, R, C>): Declared<I, R, C> =>
  d;

interface Asks {
  readonly inputs: Inputs;
  readonly results: Results;
  readonly curves: Curves;
}
/** Of a declaration: plain inputs that `solve` sees, results by name, curves, and the ground that findings are written on. */
export type InputsOf<D extends Asks> = Plain<D["inputs"]>;
export type ResultsOf<D extends Asks> = Solved<D["results"]>;
export type NamesOf<D extends Asks> = keyof D["results"] & string;
export type GroundOf<D extends Asks> = GroundOn<InputsOf<D>, NamesOf<D>>;
export type DraftingOf<D extends Asks> = Drafting<NamesOf<D>>;

interface MoreOfFinding<N extends string> {
  /** what to do; it makes the finding a step */
  readonly do?: string;
  readonly restsOn?: readonly N[];
  readonly hazards?: readonly [Hazard, ...Hazard[]];
  readonly state?: State;
}
/** Puts a finding: its id, how grave it is, one sentence for the person, and what it asks for. */
export type Put<N extends string> = (id: string, severity: Severity, says: string, more?: MoreOfFinding<N>) => void;
export type PutOf<D extends Asks> = Put<NamesOf<D>>;
/** An issue at an input: its path, a code, what was read and what was expected. */
export type Refuse = (path: string, code: string, read: string, expected: string) => Issue;

/** What answers a declared question. */
interface Worked<D extends Asks, I extends Inputs, R extends Results, C extends Curves, A>
  extends Pick<SheetOf<I, R, C>, "theory" | "learns"> {
  /** worked out once for an answer, at the best values: what its curves, its sentences and its tables all rest on */
  readonly ahead?: (x: InputsOf<D>, chance: Chance) => A;
  /** what can't be answered, located, one issue or all of them: asked before anything is prepared */
  readonly refuse?: (x: InputsOf<D>, bad: Refuse) => Issue | readonly Issue[] | undefined;
  readonly prepare: (best: Plain<I>, points: number, chance: Chance, ahead: A) => ReturnType<SheetOf<I, R, C>["prepare"]>;
  readonly tables?: (best: Plain<I>, ahead: A) => readonly Table[];
  readonly strips?: (best: Plain<I>, ahead: A) => readonly Strips[];
  readonly drawing?: (g: GroundOf<D>, draft: DraftingOf<D>, ahead: A) => Sketch | readonly Sketch[];
  readonly headline: (g: GroundOf<D>, ahead: A) => string;
  readonly findings: (g: GroundOf<D>, put: PutOf<D>, ahead: A) => void;
  readonly parts?: (g: GroundOf<D>, ahead: A) => readonly Part[];
}

/**
 * A sheet from its declaration and from what answers it.
 *
 * @param d the declaration
 * @param w refusals, solution, headline, findings
 * @returns the sheet, its own types forgotten
 * @source house frame
 */
export function answers<const I extends Inputs, const R extends Results, const C extends Curves, A = undefined>(
  d: Declared<I, R, C>,
  w: Worked<Declared<I, R, C>, I, R, C, A>,
): AnySheet {
  const { refuse, learns, tables, strips, drawing, parts } = w;
  // by the inputs of an answer, which are one object from its first draw to its last table
  const held = new WeakMap<object, A>();
  const aheadOf = (x: Plain<I>): A => held.get(x) as A;
  const { place = ["none"] } = d;
  const nothing = (): Arrays<C> => blank(d.curves);
  const own: SheetOf<I, R, C> = {
    ...d,
    theory: w.theory,
    ...(learns ? { learns } : {}),
    headline: (g) => w.headline(g, aheadOf(g.best)),
    ...(tables ? { tables: (best: Plain<I>) => tables(best, aheadOf(best)) } : {}),
    ...(strips ? { strips: (best: Plain<I>) => strips(best, aheadOf(best)) } : {}),
    ...(drawing
      ? {
          drawing: (g: GroundOn<Plain<I>, keyof R & string>, draft: Drafting<keyof R & string>) => {
            const sketched = drawing(g, draft, aheadOf(g.best));
            return "kind" in sketched ? [sketched] : sketched;
          },
        }
      : {}),
    ...(parts ? { parts: (g: GroundOn<Plain<I>, keyof R & string>) => parts(g, aheadOf(g.best)) } : {}),
    keptRows: keptRowsOf(d.inputs),
    prepare: (best: Plain<I>, points: number, chance: Chance) => {
      const refused = refuse?.(best, (path, code, read, expected) => ({ path, code, read, expected })) ?? [];
      const issues = "path" in refused ? [refused] : refused;
      if (issues.length > 0) return { axes: nothing(), solve: () => noneOf(Object.keys(d.results), "refused") as Solved<R>, issues };
      const ahead = w.ahead?.(best, chance) as A;
      held.set(best, ahead);
      return w.prepare(best, points, chance, ahead);
    },
    findings: (g) => {
      const out: Finding<R>[] = [];
      const put: PutOf<Declared<I, R, C>> = (id, severity, says, { do: todo, restsOn = [], hazards, state } = {}) =>
        void out.push({
          id,
          severity,
          says,
          ...(todo === undefined ? {} : { do: todo }),
          restsOn,
          hazards: hazards ?? (todo === undefined ? ["none"] : place),
          ...(state ? { state } : {}),
        });
      w.findings(g, put, aheadOf(g.best));
      return out;
    },
  };
  // the index and the faces hold sheets of all types in one list: each has been checked against its own here
  return own as unknown as AnySheet;
}

/** Names under which rows typed on a question are kept. */
export const keptRowsOf = (inputs: Inputs): readonly string[] =>
  Object.values(inputs).flatMap((i) => (i.kind === "table" && i.at !== undefined ? [i.at.split(".").pop() ?? ""] : []));

const blank = <C extends Curves>(curves: C): Arrays<C> =>
  Object.fromEntries(Object.keys(curves).map((k) => [k, new Float64Array(1)])) as Arrays<C>;

/** The same reason for every one of these results. */
export const noneOf = <N extends string>(names: readonly N[], none: string): Record<N, NoValue> =>
  Object.fromEntries(names.map((n) => [n, { none }])) as Record<N, NoValue>;
/** What can hurt inside a set that is on. */
export const inside: Finding["hazards"] = ["b-plus", "stored-charge"];
/** Where a value has no source but what is usually done. */
export const practice = "common practice, no source";

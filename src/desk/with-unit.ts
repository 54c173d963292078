import type { AnySheet } from "../ask/contract";
import { InputError, type Issue } from "../units/issue";
import { own } from "../units/own";
import { withLikelyUnits } from "../units/parse";

/** What was typed after `fettle sheet`. */
export interface TriedOn {
  readonly sheet: AnySheet;
  readonly job: string | undefined;
  readonly at?: string | undefined;
  readonly tried: Readonly<Record<string, string>>;
  readonly record: boolean;
}
const quoted = (text: string): string => (/^[\w.-]+$/.test(text) ? text : `"${text}"`);

/** The command again, one value written with its unit. */
function again(said: TriedOn, name: string, value: string): string {
  const tries = Object.entries({ ...said.tried, [name]: value }).map(([n, v]) => `--try ${n}=${quoted(v)}`);
  const words = [said.sheet.id, ...(said.job === undefined ? [] : [quoted(said.job)]), ...(said.at === undefined ? [] : ["--at", said.at])];
  return ["fettle sheet", ...words, ...tries, ...(said.record ? ["--record"] : [])].join(" ");
}

/**
 * Refusals of figures that were tried without their unit, each with the command to type instead: the likeliest unit filled in.
 *
 * @param e what was thrown
 * @param said the command as it was typed
 * @returns the same with those refusals told so; what else it is stays as it was
 * @source house frame
 */
export function withUnit(e: unknown, said: TriedOn): unknown {
  if (!(e instanceof InputError)) return e;
  const told = (i: Issue): Issue => {
    const name = Object.keys(said.tried).find((n) => n === i.path || own(said.sheet.aliases, n) === i.path || said.tried[n] === i.read);
    const input = name === undefined ? undefined : own(said.sheet.inputs, own(said.sheet.aliases, name) ?? name);
    if (name === undefined || input?.kind !== "quantity" || !["no-unit", "ambiguous-unit"].includes(i.code)) return i;
    const [likely] = withLikelyUnits(said.tried[name], input.dimension);
    return likely === undefined || !Number.isFinite(Number(said.tried[name]))
      ? i
      : { ...i, expected: `${i.expected}. Type: ${again(said, name, likely)}` };
  };
  return new InputError(e.issues.map(told));
}

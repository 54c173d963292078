import { basename } from "node:path";
import { Argument, type Command as Commander, Option } from "commander";
import type { z } from "zod";
import type { Desk } from "../../desk/actions";
import { type At, type Command, checked, type Field, fieldsOf } from "../../desk/declare";
import type { Errands } from "../../desk/errand";
import { InputError } from "../../units/issue";
import { chosen, refuseInWords, unsaid } from "./usage";
import { longFile, readBytes, type World } from "./world";

/** What every command is typed at. */
export interface Terminal {
  readonly world: World;
  /** opens the store, works on it, closes it */
  readonly desk: <T>(work: (d: Desk) => Promise<T>) => Promise<T>;
  /** who does what may take long or much */
  readonly errands: Errands;
  /** sets the exit code: 1 judged and found wanting, 2 no answer */
  readonly judge: (code: 1 | 2) => void;
  readonly everyLine: () => Promise<readonly Line[]>;
}
/** A command as it was typed, and how it is done. */
export interface Call<T extends z.ZodObject, H extends z.ZodObject, Done> extends Terminal {
  readonly said: z.output<T>;
  readonly here: z.output<H>;
  readonly act: (said: z.output<T>, more?: Pick<At, "keep" | "progress" | "bench" | "signal">) => Promise<Done>;
  readonly out: (text: string) => void;
}
/** A command of the command line: its declaration, and how it is typed. */
export interface Line {
  readonly command: Pick<Command, "name" | "says" | "example" | "records"> & { readonly fields: readonly Field[] };
  readonly add: (program: Commander, terminal: Terminal) => void;
}
export const isArgument = (f: Field): boolean => f.usage !== undefined && !f.usage.startsWith("-");
export const isOption = (f: Field): boolean => f.usage?.startsWith("-") ?? false;

function optionOf(f: Field): Option {
  const option = new Option(f.usage ?? "", f.says);
  if (f.options.length > 0) option.choices([...f.options]).argParser((typed: string) => chosen(f, typed));
  if (typeof f.unsaid === "string" && f.unsaid !== "" && f.given === undefined) option.default(f.unsaid);
  if (f.words) option.argParser((value: string, before: readonly string[] | undefined) => [...(before ?? []), value]);
  return option;
}
function argumentOf(f: Field): Argument {
  const argument = new Argument(f.usage ?? "", f.says);
  return f.options.length > 0 ? argument.choices([...f.options]).argParser((typed: string) => chosen(f, typed)) : argument;
}
/** What was typed for a field, in the field's own shape; undefined where nothing was. */
function wordFor(f: Field, typed: unknown): unknown {
  if (f.given !== undefined) return typed === !f.usage?.includes("--no-") ? f.given : f.unsaid;
  if (Array.isArray(typed)) return f.words && typed.length > 0 ? f.words(typed.map(String)) : f.words ? f.unsaid : typed;
  if (typeof typed !== "string") return f.unsaid;
  if (f.file === "in pieces") return longFile(typed);
  return f.file ? { name: basename(typed), bytes: readBytes(typed) } : typed;
}

/**
 * A declared command as the command line has it.
 *
 * @param command the declaration
 * @param show does it, and says at the terminal what came of it
 * @param after what its help ends with
 */
export function line<T extends z.ZodObject, H extends z.ZodObject, Done>(
  command: Command<T, H, Done>,
  show: (call: Call<T, H, Done>) => Promise<void> | void,
  after = (_: World): string => "",
): Line {
  const [taken, here] = [fieldsOf(command.takes), fieldsOf(command.here)];
  const fields = [...taken, ...here];
  const add = (program: Commander, terminal: Terminal): void => {
    const c = program.command(command.name).description(command.says);
    refuseInWords(c, command.name, fields);
    const places = fields.filter(isArgument);
    for (const f of places) c.addArgument(argumentOf(f));
    const options = fields.filter(isOption).map((f) => [f.name, optionOf(f)] as const);
    for (const [, o] of options) c.addOption(o);
    c.addHelpText("after", `\nExample:\n  ${command.example ?? ""}${after(terminal.world)}`);
    c.action(async (...given: unknown[]) => {
      const typed: Record<string, unknown> = c.opts();
      const words = new Map<string, unknown>([
        ...places.map((f, i) => [f.name, given[i]] as const),
        ...options.map(([name, o]) => [name, typed[o.attributeName()]] as const),
      ]);
      const missing = unsaid(command.name, fields, (f) => words.get(f.name) !== undefined);
      if (missing.length > 0) throw new InputError(missing);
      const said = (of: readonly Field[]) => Object.fromEntries(of.map((f) => [f.name, wordFor(f, words.get(f.name))]));
      const { desk, errands, world } = terminal;
      await show({
        ...terminal,
        said: checked(command.takes, said(taken)),
        here: checked(command.here, said(here)),
        out: world.out,
        act: (what, more = {}) => command.act(what, { desk, errands, ...more }),
      });
    });
  };
  const { name, says, example, records } = command;
  return { command: { name, says, example, records, fields }, add };
}

import type { Command as Commander, CommanderError } from "commander";
import type { Field } from "../../desk/declare";
import { InputError, type Issue } from "../../units/issue";
import { closest } from "../../units/nearest";

const isArgument = (f: Field): boolean => f.usage !== undefined && !f.usage.startsWith("-");
/** A field as it is typed: `--band`, `<job>`. */
const nameOf = (f: Field): string => (isArgument(f) ? (f.usage ?? "") : (/--[\w-]+/.exec(f.usage ?? "")?.[0] ?? f.name));
const hint = (command: string): string => ` (fettle ${command === "" ? "" : `${command} `}--help shows how)`;

/**
 * What must be said and was not, arguments and options in one go.
 *
 * @param command its name, for the hint
 * @param fields those that the command line knows, in order
 * @param isSaid whether one was typed
 */
export const unsaid = (command: string, fields: readonly Field[], isSaid: (f: Field) => boolean): Issue[] =>
  fields
    .filter((f) => f.mandatory && f.usage !== undefined && !isSaid(f))
    .map((f) => ({ path: nameOf(f), code: "not-said", read: "", expected: `${f.says}${hint(command)}` }));

/** A word of a field that has few, or a refusal that lists them. */
export function chosen(f: Field, typed: string): string {
  if (f.options.includes(typed)) return typed;
  throw new InputError([{ path: nameOf(f), code: "not-an-option", read: typed, expected: `one of ${f.options.join(", ")}` }]);
}

/** What was typed that no field takes, as the parser met it. */
function strange(e: CommanderError, c: Commander, command: string, fields: readonly Field[]): Issue | undefined {
  const quoted = /'([^']*)'/.exec(e.message)?.[1] ?? "";
  if (e.code === "commander.excessArguments") {
    const places = fields.filter(isArgument);
    const expected = places.length === 0 ? "nothing" : `only ${places.map(nameOf).join(" ")}`;
    return { path: command, code: "too-many-words", read: c.args.slice(places.length).join(" "), expected: `${expected}${hint(command)}` };
  }
  if (e.code === "commander.unknownOption") {
    const near = closest(quoted, [...fields.filter((f) => !isArgument(f)).map(nameOf), "--help"], 3);
    return { path: command || "fettle", code: "no-option", read: quoted, expected: `one of its options, such as ${near.join(" or ")}` };
  }
  if (e.code !== "commander.optionMissingArgument") return undefined;
  const said = fields.find((f) => f.usage === quoted)?.says ?? "a value";
  return { path: /--[\w-]+/.exec(quoted)?.[0] ?? quoted, code: "not-said", read: "", expected: `${said}${hint(command)}` };
}

/**
 * Says what the parser refuses as everything else is refused: the field, what was read, what was expected.
 *
 * @param c the command as the parser has it
 * @param command its name; empty for the program itself
 * @param fields those that the command line knows, in order
 */
export function refuseInWords(c: Commander, command: string, fields: readonly Field[]): void {
  c.configureOutput({ outputError: () => undefined })
    .showHelpAfterError(false)
    .exitOverride((e) => {
      const places = fields.filter(isArgument);
      const isSaid = (f: Field): boolean => (isArgument(f) ? places.indexOf(f) < c.args.length : Object.hasOwn(c.opts(), optionKey(c, f)));
      const missing = e.code === "commander.missingArgument" ? unsaid(command, fields, isSaid) : [];
      const one = missing.length > 0 ? undefined : strange(e, c, command, fields);
      throw missing.length > 0 ? new InputError(missing) : one ? new InputError([one]) : e;
    });
}
/** Under which name the parser keeps an option. */
const optionKey = (c: Commander, f: Field): string => c.options.find((o) => o.flags === f.usage)?.attributeName() ?? f.name;

import { completion } from "../../desk/commands/completion";
import { isOption, type Line, line } from "./line";

/** The long name of an option as typed: `--note` of `-n, --note <text>`. */
const longName = (usage = ""): string => /--[\w-]+/.exec(usage)?.[0] ?? usage;

/** A script for bash: commands, the options of each, and the words that an option chooses from; else names of files. */
export function bashScript(lines: readonly Line[]): string {
  const commands = lines.map((l) => l.command);
  const chosen = commands.flatMap((c) =>
    c.fields
      .filter((f) => isOption(f) && f.options.length > 0)
      .map((f) => `    "${c.name} ${longName(f.usage)}") words="${f.options.join(" ")}" ;;`),
  );
  const optionsOf = commands.map((c) => {
    const names = c.fields.filter(isOption).map((f) => longName(f.usage));
    return `      ${c.name}) words="${[...names, "--help"].join(" ")}" ;;`;
  });
  return `_fettle() {
  local word="\${COMP_WORDS[COMP_CWORD]}" words=""
  case "\${COMP_WORDS[1]} \${COMP_WORDS[COMP_CWORD - 1]}" in
${chosen.join("\n")}
    *) case "\${COMP_WORDS[1]}" in
${optionsOf.join("\n")}
    esac ;;
  esac
  if [ "$COMP_CWORD" -eq 1 ]; then words="${commands.map((c) => c.name).join(" ")}"; fi
  mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
}
complete -o default -F _fettle fettle`;
}

export const completionLine = line(completion, async ({ said, act, out, everyLine }) => {
  await act(said);
  out(bashScript(await everyLine()));
});

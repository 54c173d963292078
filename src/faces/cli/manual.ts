import { isArgument, isOption, type Line } from "./line";

/** A character that is none of ASCII's, by its number. */
const numbered = (c: string): string => `\\[u${(c.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0")}]`;
/** A text as roff has it: no line of it is a request, no backslash an escape, no minus a hyphen. */
const roff = (text: string): string =>
  text
    .replace(/\\/g, "\\e")
    .replace(/-/g, "\\-")
    .replace(/^([.'])/gm, "\\&$1")
    .replace(/[\u{80}-\u{10ffff}]/gu, numbered);
/** A usage with what is typed in bold and what stands for a word in italics. */
const typed = (usage = ""): string =>
  usage
    .split(/(<[^>]+>|\[[^\]]+\])/)
    .map((part) => (part === "" ? "" : /^[<[]/.test(part) ? `\\fI${roff(part)}\\fR` : `\\fB${roff(part)}\\fR`))
    .join("");

/**
 * The manual page of the command line, in the macros of man(7).
 *
 * @param lines every command
 * @param version as it is released
 */
export function manualPage(lines: readonly Line[], version: string): string {
  const one = ({ command: c }: Line): string[] => {
    const places = c.fields.filter(isArgument);
    const options = c.fields.filter(isOption);
    const listed = [...places, ...options].flatMap((f) => {
      const usual = typeof f.unsaid === "string" && f.unsaid !== "" && f.given === undefined ? `; ${f.unsaid} if not given` : "";
      const choice = f.options.length > 0 ? `: ${f.options.join(", ")}` : "";
      return [".TP", typed(f.usage), roff(`${f.says}${choice}${usual}`)];
    });
    const name = `\\fB${roff(c.name)}\\fR`;
    return [
      `.SS ${name}${places.map((f) => ` ${typed(f.usage)}`).join("")}${options.length > 0 ? " [\\fIoptions\\fR]" : ""}`,
      roff(`${c.says}${c.records ? " (records)" : ""}`),
      ...listed,
      ".PP",
      ".nf",
      roff(c.example ?? ""),
      ".fi",
    ];
  };
  return `${[
    `.\\" Made from the declarations of the commands: npm run tables`,
    `.TH FETTLE 1 "" "Fettle ${version}" "User Commands"`,
    ".SH NAME",
    "fettle \\- bench companion of a person who restores vintage communications receivers",
    ".SH SYNOPSIS",
    ".B fettle",
    "\\fIcommand\\fR [\\fIarguments\\fR] [\\fIoptions\\fR]",
    ".SH DESCRIPTION",
    "Keeps a bench's jobs and answers its questions. B+ kills: nothing here makes anything safe to touch.",
    ".SH COMMANDS",
    ...lines.flatMap(one),
    ".SH EXIT STATUS",
    "0 done; 1 judged and found wanting, or not all was kept; 2 bad usage or input, and nothing was recorded.",
    ".SH ENVIRONMENT",
    ".TP",
    "\\fBFETTLE_STORE\\fR",
    "file that the jobs are kept in",
    ".TP",
    "\\fBFETTLE_TRACE\\fR",
    "if it is set, an error prints where it arose",
  ].join("\n")}\n`;
}

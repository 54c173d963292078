import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { version } from "../package.json";
import { commands as asked } from "../src/desk/commands/index";
import type { Field } from "../src/desk/declare";
import { type Role, roles, suffices } from "../src/desk/roles";
import { isArgument } from "../src/faces/cli/line";
import { everyLine } from "../src/faces/cli/lines";
import { manualPage } from "../src/faces/cli/manual";
import { ownRoutes } from "../src/faces/server/shop/own-routes";
import { forms } from "../src/job/forms";
import { workKinds } from "../src/job/ripple";
import { steps } from "../src/job/steps";
import { addressed } from "../src/set/addresses";
import { sheets } from "../src/sheets/index";
import { stateWord } from "../src/standards/cautions";
import { lists } from "./lists";
import { senses } from "./words";

/** Tables of the documents that are made from the declarations, each between its two marks. `npm run tables` renews them; a test says when one is stale. */
const cell = (s: string): string => s.replace(/\|/g, "\\|").replace(/\s+/g, " ");
function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const all = [heads, ...rows].map((r) => r.map(cell));
  const widths = heads.map((_, c) => Math.max(3, ...all.map((r) => [...r[c]].length)));
  const line = (r: readonly string[]): string => `| ${r.map((t, c) => t + " ".repeat(widths[c] - [...t].length)).join(" | ")} |`;
  return [line(all[0]), `| ${widths.map((w) => "-".repeat(w)).join(" | ")} |`, ...all.slice(1).map(line)].join("\n");
}
const lines = await everyLine();
const typed = lines.map((l) => l.command);
const usage = (name: string, fields: readonly Field[]): string => [name, ...fields.filter(isArgument).map((f) => f.usage)].join(" ");

/** Every generated table by its name. */
export const tables: Readonly<Record<string, () => string>> = {
  sheets: () =>
    table(
      ["sheet", "question"],
      sheets.map((s) => [`\`${s.id}\``, s.question]),
    ),
  commands: () =>
    table(
      ["command", "what it does"],
      typed.map((c) => [`\`${usage(c.name, c.fields)}\``, c.says]),
    ),
  roles: () =>
    table(
      ["asked of a shop", "anyone", ...roles, "what it does"],
      asked
        .flatMap((c) => [...new Set(c.served.map((r) => r.may))].map((may) => ({ ...c, may })))
        .map((c) => [`\`${c.name}\``, ...mayAsk(c.may), c.says])
        .concat(Object.values(ownRoutes).map((r) => [`\`${r.method} ${r.path}\``, ...mayAsk(r.may), r.says])),
    ),
  addresses: () =>
    table(
      ["address", "what is kept there", "is"],
      addressed.map((a) => [
        `\`${a.address}\`${a.fitting === undefined ? "" : ` of a ${a.fitting}`}`,
        a.meaning,
        a.kind === "quantity" ? a.dimension : a.kind === "choice" ? a.options.join(", ") : `rows of ${Object.keys(a.columns).join(", ")}`,
      ]),
    ),
  steps: () =>
    table(
      ["step", "what", "the set is", "rests on"],
      steps.map((s) => [s.id, s.title, stateWord[s.state], s.rests.join(" ")]),
    ),
  cards: () =>
    table(
      ["card", "title", "steps", "the set is"],
      forms.map((f) => [`\`${f.id}\``, f.title, f.steps.join(", "), stateWord[f.state]]),
    ),
  words: () =>
    table(
      ["word", "is", "is not"],
      senses.map((s) => [s.word, s.is, s.not]),
    ),
  works: () =>
    table(
      ["work", "what", "the set is"],
      workKinds.map((w) => [`\`${w.id}\``, w.title, stateWord[w.state]]),
    ),
};
const mayAsk = (may: Role | "anyone"): string[] => [undefined, ...roles].map((r) => (may === "anyone" || suffices(r, may) ? "yes" : ""));
const marked = (name: string): RegExp => new RegExp(`(<!-- table: ${name} -->\\n)[\\s\\S]*?(<!-- end -->)`, "g");

/** A document with its tables made anew. */
export function renewed(text: string): string {
  return Object.entries(tables).reduce(
    (t, [name, make]) =>
      t.includes(`<!-- table: ${name} -->`) ? t.replace(marked(name), (_, a: string, b: string) => `${a}\n${make()}\n\n${b}`) : t,
    text,
  );
}
/** Documents that hold generated tables. */
export const documents = ["README.md", "CONTRIBUTING.md", "docs/reference.md"] as const;

/** Files that are made whole from the declarations. */
export const made: Readonly<Record<string, () => string>> = { "docs/fettle.1": () => manualPage(lines, version), ...lists };

/** Writes the tables of every document anew, and every file that is made whole. */
export function renewAll(root: string): void {
  for (const d of documents) {
    const path = join(root, d);
    writeFileSync(path, renewed(readFileSync(path, "utf8")));
  }
  for (const [path, make] of Object.entries(made)) writeFileSync(join(root, path), make());
}

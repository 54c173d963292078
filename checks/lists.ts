import { order } from "../src/sheets/order";

/** What a question's folder is called in the code: `b-plus` is bPlus. */
const nameOf = (id: string): string => id.replace(/-(\w)/g, (_, c: string) => c.toUpperCase());
const folderOf = (from: string): string => from.split("/")[1];
/** Imports in the order in which a formatter has them. */
const imports = (all: readonly { readonly from: string; readonly names: string }[]): string =>
  [...all]
    .sort((a, b) => (folderOf(a.from) < folderOf(b.from) ? -1 : 1))
    .map(({ from, names }) => `import { ${names} } from "${from}";`)
    .join("\n");
const list = (kind: string): string => `[\n${order.map((id) => `  ${nameOf(id)},\n`).join("")}]${kind}`;
const madeFrom = "// made from order.ts: npm run tables";

/** The two lists of all questions, with and without what answers them; a page that asks does not carry the answers. */
export const lists: Readonly<Record<string, () => string>> = {
  "src/sheets/asked.ts": () => `${madeFrom}
import { findingById } from "../units/by-id";
${imports([
  ...order.map((id) => ({ from: `./${id}/ask`, names: `ask as ${nameOf(id)}` })),
  { from: "./question", names: "asQuestions, type Question" },
])}

/** Every question of the house, in the order of the sheets that answer them; for whoever asks without answering. */
export const questions: readonly Question[] = asQuestions(${list(");")}

export const questionById = findingById(questions);
`,
  "src/sheets/index.ts": () => `${madeFrom}
import type { AnySheet } from "../ask/contract";
import { findingById } from "../units/by-id";
${imports(order.map((id) => ({ from: `./${id}/sheet`, names: nameOf(id) })))}

/** Every sheet of the house, in the order in which a person meets them. */
export const sheets: readonly AnySheet[] = ${list(";")}

export const sheetById = findingById(sheets);
`,
};

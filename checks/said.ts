import { readFileSync } from "node:fs";
import ts from "typescript";

/** One text in a source file that a person may read, and where it stands. */
export interface SaidText {
  readonly at: string;
  readonly text: string;
}
/** Attributes of the page whose text nobody reads. */
const unread = /^(?:className|id|href|htmlFor|type|role|rel|name|key|scope)$/;
const textOf = (n: ts.Node): string | undefined => {
  if (ts.isTemplateExpression(n)) return n.head.text + n.templateSpans.map((s) => `…${s.literal.text}`).join("");
  if (ts.isStringLiteral(n) || ts.isNoSubstitutionTemplateLiteral(n)) return n.text;
  return ts.isJsxText(n) ? n.text : undefined;
};
/** A text of one small word is a name in the code; what a person reads has a blank or begins as a sentence does. */
const isRead = (t: string): boolean => /\S\s+\S/.test(t) || /^[A-Z][a-z]/.test(t);

/** Every text of a source file that a person may read: strings, templates with their gaps as "…", words on the page. */
export function saidIn(file: string, source = readFileSync(file, "utf8")): SaidText[] {
  const kind = file.endsWith("x") ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const parsed = ts.createSourceFile(file, source, ts.ScriptTarget.Latest, true, kind);
  const out: SaidText[] = [];
  const walk = (n: ts.Node): void => {
    if (ts.isImportDeclaration(n) || ts.isExportDeclaration(n) || ts.isLiteralTypeNode(n)) return;
    if (ts.isJsxAttribute(n) && unread.test(n.name.getText(parsed))) return;
    const text = textOf(n)?.replace(/\s+/g, " ").trim();
    if (text && isRead(text)) out.push({ at: `${file}:${parsed.getLineAndCharacterOfPosition(n.getStart(parsed)).line + 1}`, text });
    ts.forEachChild(n, walk);
  };
  walk(parsed);
  return out;
}

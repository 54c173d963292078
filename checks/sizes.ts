import { readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";

/** How large a file, a function and a list of parameters may be; what is larger today is named in too-large.ts, a list that only shrinks. */
export const mostLines = { file: 250, function: 60, parameters: 5 } as const;

const nameOf = (node: ts.SignatureDeclaration): string => {
  if (node.name && ts.isIdentifier(node.name)) return node.name.text;
  const { parent } = node;
  if (ts.isVariableDeclaration(parent) && ts.isIdentifier(parent.name)) return parent.name.text;
  if (ts.isPropertyAssignment(parent) && ts.isIdentifier(parent.name)) return parent.name.text;
  return "";
};

/**
 * What is larger than it may be in some files.
 *
 * @param root of the project
 * @param files paths from it
 * @returns `path` for a file, `path: name` for a function too long, `path: name()` for one with too many parameters
 */
export function tooLargeIn(root: string, files: readonly string[]): string[] {
  const out = new Set<string>();
  for (const f of files) {
    const text = readFileSync(join(root, f), "utf8");
    const source = ts.createSourceFile(f, text, ts.ScriptTarget.Latest, true);
    const lineOf = (at: number): number => source.getLineAndCharacterOfPosition(at).line;
    if (lineOf(text.length) > mostLines.file) out.add(f);
    const look = (node: ts.Node): void => {
      if (ts.isFunctionLike(node) && "body" in node && node.body) {
        const name = nameOf(node);
        if (lineOf(node.getEnd()) - lineOf(node.getStart(source)) + 1 > mostLines.function) out.add(`${f}: ${name}`);
        if (node.parameters.length > mostLines.parameters) out.add(`${f}: ${name}()`);
      }
      ts.forEachChild(node, look);
    };
    look(source);
  }
  return [...out].sort();
}

import { readFileSync } from "node:fs";
import ts from "typescript";

/** What writes to a map, a set, a list or an array of numbers. */
const writes = /^(?:set|add|push|delete|clear|splice|pop|shift|unshift|fill|sort|reverse|copyWithin)$/;
/** What holds nothing that changes by itself: tables and words, as long as nothing writes to them. */
const still = /^(?:Set|Map|RegExp|Float64Array|Int32Array|Uint8Array|Intl\.\w+)$/;

/** The name that a chain of members begins with: `a` of `a.b[0].c`. */
function rootOf(n: ts.Expression): string | undefined {
  if (ts.isIdentifier(n)) return n.text;
  return ts.isPropertyAccessExpression(n) || ts.isElementAccessExpression(n) || ts.isNonNullExpression(n)
    ? rootOf(n.expression)
    : undefined;
}
const assigns = (n: ts.Node): n is ts.BinaryExpression =>
  ts.isBinaryExpression(n) &&
  n.operatorToken.kind >= ts.SyntaxKind.FirstAssignment &&
  n.operatorToken.kind <= ts.SyntaxKind.LastAssignment &&
  !ts.isIdentifier(n.left);

/** Names that a function has for itself: what it writes there is its own. */
function ownNames(of: ts.Node, into: Set<string>): void {
  const look = (n: ts.Node): void => {
    if ((ts.isVariableDeclaration(n) || ts.isParameter(n) || ts.isBindingElement(n)) && ts.isIdentifier(n.name)) into.add(n.name.text);
    ts.forEachChild(n, look);
  };
  look(of);
}

/**
 * What a source file keeps outside its functions and may change: a `let`, something made by `new` that has a state of its own, a map, a list or an
 * object that the file writes to. A memory of what was worked out stands in `remembering` and `onceFor`, which can't tell one answer from the next.
 *
 * @param file its path
 * @param source its text
 * @returns name and reason of each
 */
export function keptIn(file: string, source = readFileSync(file, "utf8")): string[] {
  const parsed = ts.createSourceFile(file, source, ts.ScriptTarget.Latest, true);
  const out: string[] = [];
  const names = new Set<string>();
  for (const s of parsed.statements) {
    if (!ts.isVariableStatement(s)) continue;
    for (const d of s.declarationList.declarations) {
      const name = d.name.getText(parsed);
      if (!(s.declarationList.flags & ts.NodeFlags.Const)) out.push(`${name} can be set anew`);
      if (d.initializer && ts.isNewExpression(d.initializer) && !still.test(d.initializer.expression.getText(parsed)))
        out.push(`${name} is made once by new ${d.initializer.expression.getText(parsed)}`);
      names.add(name);
    }
  }
  for (const s of parsed.statements) {
    const own = new Set<string>();
    if (!ts.isVariableStatement(s)) ownNames(s, own);
    else for (const d of s.declarationList.declarations) if (d.initializer) ownNames(d.initializer, own);
    const told = (of: ts.Expression): void => {
      const root = rootOf(of);
      if (root !== undefined && names.has(root) && !own.has(root)) out.push(`${root} is written to`);
    };
    const look = (n: ts.Node): void => {
      if (assigns(n)) told(n.left);
      if (ts.isCallExpression(n) && ts.isPropertyAccessExpression(n.expression) && writes.test(n.expression.name.text))
        told(n.expression.expression);
      ts.forEachChild(n, look);
    };
    look(s);
  }
  return [...new Set(out)];
}

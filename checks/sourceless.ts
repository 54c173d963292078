/**
 * Public functions whose docstring names no source, or that have none.
 *
 * @param text of a file
 * @returns their names; overloads stand under one docstring
 */
export function sourcelessIn(text: string): string[] {
  const all = [...text.matchAll(/^export (?:async )?function (\w+)/gm)];
  return all
    .filter((m, i) => all[i - 1]?.[1] !== m[1])
    .filter((m) => {
      const doc = text.slice(0, m.index).trimEnd().endsWith("*/") ? text.slice(text.lastIndexOf("/**", m.index), m.index) : "";
      return !doc.includes("@source") && m[1] !== "needPositive";
    })
    .map((m) => m[1]);
}

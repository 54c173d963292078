/** Comma-separated text. Source: RFC 4180; a cell that a spreadsheet would take for a formula is kept as text by an apostrophe before it. */
const formula = /^'*[=+@\t\r\n-]/;

/**
 * A text as a cell: quoted where it must be, and never run as a formula.
 *
 * @source RFC 4180; a leading apostrophe against formulas is common practice
 */
export function csvCell(text: string): string {
  const safe = formula.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
}
/** The text that {@link csvCell} wrote. */
export const plainCell = (cell: string): string => (cell.startsWith("'") && formula.test(cell) ? cell.slice(1) : cell);

/**
 * Sockets as numbers: V5 is 5. The halves of a double tube, V5a and V5b, are a tenth and two tenths more, so that they sort beside it.
 */
const halves: readonly string[] = ["a", "b", "c"];

/**
 * The socket that a cell names, such as `V5`, `5`, `V5b first audio`; undefined where it names none.
 *
 * @source common practice of diagrams, no source
 */
export function socketNumber(said: string): number | undefined {
  const m = /^\s*[A-Za-z]{0,2}\s*(\d{1,3})([abc])?(?![A-Za-z0-9])/i.exec(said);
  if (!m) return undefined;
  const half = m[2] ? halves.indexOf(m[2].toLowerCase()) + 1 : 0;
  return Number(m[1]) + half / 10;
}
/**
 * A socket as it is written: `V5`, `V5b`.
 *
 * @source common practice of diagrams, no source
 */
export function socketName(socket: number): string {
  const half = Math.round(10 * socket) % 10;
  return `V${Math.floor(socket + 1e-9)}${half > 0 ? halves[half - 1] : ""}`;
}

/**
 * Sockets as numbers: V5 is 5. The halves of a double tube, V5a and V5b, are a tenth and two tenths more, so that they sort beside it. An accessory's own,
 * A1, stand behind the set's: 1001.
 */
const accessorys = 1000;
/** Whether a socket is an accessory's own, such as A1. */
export const isOfAccessory = (said: string): boolean => /^\s*A\s*\d/i.test(said);
const halves: readonly string[] = ["a", "b", "c"];

/**
 * The socket that a cell names, such as `V5`, `5`, `V5b first audio`, `A1`; undefined where it names none.
 *
 * @source common practice of diagrams, no source
 */
export function socketNumber(said: string): number | undefined {
  const m = /^\s*[A-Za-z]{0,2}\s*(\d{1,3})([abc])?(?![A-Za-z0-9])/i.exec(said);
  if (!m) return undefined;
  const half = m[2] ? halves.indexOf(m[2].toLowerCase()) + 1 : 0;
  return Number(m[1]) + half / 10 + (isOfAccessory(said) ? accessorys : 0);
}
/**
 * A socket as it is written: `V5`, `V5b`, `A1`.
 *
 * @source common practice of diagrams, no source
 */
export function socketName(socket: number): string {
  const half = Math.round(10 * socket) % 10;
  const n = Math.floor(socket + 1e-9);
  return `${n > accessorys ? "A" : "V"}${n > accessorys ? n - accessorys : n}${half > 0 ? halves[half - 1] : ""}`;
}

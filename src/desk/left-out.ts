/** A question that a report or a list leaves out, and why. */
export interface LeftOut {
  readonly title: string;
  readonly why: string;
}
export const sayLeftOut = (l: LeftOut): string => `left out: ${l.title}, because ${l.why}`;

/** Colours of a picture. */
export interface Ink {
  readonly paper: string;
  readonly ink: string;
  readonly faint: string;
  readonly accent: string;
  readonly rule: string;
  /** the style of the page lays paper under the letters of a name by itself; else it is drawn */
  readonly laysPaper?: true;
}
export const dayInk: Ink = { paper: "#fffdf7", ink: "#1d2a33", faint: "#7d8790", accent: "#b3401f", rule: "#d9d4c7" };
export const escaped = (s: string): string => s.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
export const round = (n: number): string => String(Math.round(n * 100) / 100);

/** A line or a band: how it looks, and its way, which alone changes while a hand moves it. */
export interface Path {
  readonly look: string;
  readonly d: string;
}
export const markupOf = ({ look, d }: Path): string => `<path ${look} d="${d}"/>`;
/** Words at a place: they can be moved without being drawn anew. */
export interface Placed {
  readonly x: number;
  readonly y: number;
  readonly at: (x: number, y: number) => string;
}

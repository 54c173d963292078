import type { Ink } from "../../figures/svg";

/** Inks of the page: its own colours, by day and in the dark. */
export const pageInk: Ink = {
  paper: "var(--sheet)",
  ink: "var(--ink)",
  faint: "var(--quiet)",
  accent: "var(--accent)",
  rule: "var(--rule)",
  laysPaper: true,
};

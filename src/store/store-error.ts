import type { Issue } from "../units/issue";

/** The store refused: said in a person's words, with nothing changed. */
export class StoreError extends Error {
  constructor(
    readonly code:
      | "exists"
      | "no-job"
      | "full"
      | "read-only"
      | "busy"
      | "unreadable"
      | "conflict"
      | "newer"
      | "earlier"
      | "failing"
      | "emptied"
      | "away",
    message: string,
    /** the field that is to blame, where one is */
    readonly issue?: Issue,
  ) {
    super(message);
    this.name = "StoreError";
  }
}
/** A shop's database that was written by an earlier version: what brings it up to date is said with it. */
export const earlierShop = (where: string): StoreError =>
  new StoreError(
    "earlier",
    `${where} was written by an earlier Fettle: fettle upgrade-store FILE writes a backup to FILE, then brings it up to date for everybody`,
  );

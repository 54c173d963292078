/** What is read at the chassis: the record cards, and one figure at a time. */

export { BigPage } from "../big/big-page";
export { Records } from "../records";

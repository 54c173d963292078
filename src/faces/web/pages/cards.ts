/** The record cards. */

export { Records } from "../records";

/** One figure at a time, with a keypad for thumbs. */

export { BigPage } from "../big/big-page";

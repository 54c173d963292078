/** The dial: its law, its zero beats, its papers. */

export { DialPage } from "../dial";

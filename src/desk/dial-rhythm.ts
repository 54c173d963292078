/** The rhythm in which zero beats of a dial are taken, for whoever takes them. */
export { rhythmOf as dialRhythm } from "../sheets/dial/rhythm";

/** Files as they are read in, told by what is in them. */

export { ReadingsPage } from "../readings/readings-page";

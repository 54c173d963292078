/** Every page of a job but the set itself: one part of the bundle, asked for when the first of them is opened. Many small parts cost more than they spare. */

export { BigPage } from "./big/big-page";
export { Describe } from "./describe";
export { DialPage } from "./dial";
export { FindPage } from "./find/find-page";
export { JoinPage } from "./join/join-page";
export { PartsPage } from "./parts-page";
export { ProofPage } from "./proof-page";
export { ReadingsPage } from "./readings/readings-page";
export { Records } from "./records";
export { WorkPage } from "./set/work-page";
export { SheetPage } from "./sheet/sheet-page";
export { FaultsPage } from "./thread/faults-page";
export { FoundAndLeft } from "./thread/found-and-left";
export { MendPage } from "./thread/mend-page";
export { SittingPage } from "./thread/sitting-page";
export { WorthPage } from "./thread/worth-page";

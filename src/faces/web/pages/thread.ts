/** The thread of the work: faults, mending, what was done, what is worth doing; one part of the bundle, since many small parts cost more than they spare. */

export { FindPage } from "../find/find-page";
export { WorkPage } from "../set/work-page";
export { FaultsPage } from "../thread/faults-page";
export { MendPage } from "../thread/mend-page";
export { SittingPage } from "../thread/sitting-page";
export { WorthPage } from "../thread/worth-page";

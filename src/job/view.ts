/** A job as it stands: folded out of its entries, and asked by sheets, by subject and by dial; what follows from it is worked out once. */
export { onceFor } from "../numerics/once";
export { benchOf, benchOfSet } from "./bench-of";
export { dialBeats, dialPoints, readingsAndDials, setPointsOf } from "./dial-beats";
export { fallWith } from "./fall-with";
export { type JobView, type StepState, type StepView, titleOfStep, viewOf } from "./fold";
export type { DueNow } from "./fold-entry";
export { subjectLabel, subjectsIn, subjectsOf } from "./subjects";

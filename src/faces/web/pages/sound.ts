/** What is heard and swept: one part of the page. */
export { HearPage } from "../hear/hear-page";
export { SweepPage } from "../instruments/sweep-page";
export { ListenPage } from "../listen/listen-page";

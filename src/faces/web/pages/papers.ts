/** What is described, what others did, what is listed and shown to be proved, and the way in for another device. */

export { Describe } from "../describe";
export { JoinPage } from "../join/join-page";
export { PartsPage } from "../parts-page";
export { ProofPage } from "../proof-page";
export { FoundAndLeft } from "../thread/found-and-left";
export { PastPage } from "../thread/past-page";

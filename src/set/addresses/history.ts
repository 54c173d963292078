import { addresses, choice } from "./declare";

/** How anybody knows of something that others did: it was seen, somebody told it, somebody looked and it is not so, or nobody knows. */
export const historyWords = ["unknown", "seen", "told", "not so"] as const;
export type HistoryWord = (typeof historyWords)[number];
const past = (meaning: string, howSeen: string) => choice(historyWords, meaning, howSeen, "unknown", { state: "open-dead" });

/** What others did to the set before it came, each with its doubt. */
export const history = addresses("history", {
  rectifierChanged: past(
    "rectifier changed from what the set was made for",
    "the tube's type against the service sheet; diodes under the socket or plugged into it",
  ),
  transformerReplaced: past(
    "power transformer replaced",
    "its marking against the service sheet; fresh solder at its leads, holes that do not fit",
  ),
  transformerOverheated: past("power transformer overheated at some time", "wax or varnish that ran out, a burnt smell, paper gone brown"),
  fuseBridged: past(
    "fuse bridged, or of the wrong value",
    "foil, wire or solder across its holder; what is printed on the fuse, against the service sheet",
  ),
  cordCut: past("line cord cut, patched or replaced", "tape, a joint, a plug of another age; follow it to where it ends inside"),
  capacitorsReplaced: past("capacitors replaced", "parts of another age, fresh solder, old ends left on their lugs"),
  connectorWithBPlus: past(
    "connector or jack on the outside that may carry B+",
    "an octal or other socket, jack or terminal that belongs to no control; follow its leads",
  ),
  holesAdded: past("holes, switches or cables added", "ragged holes, paint under a washer, leads that are not on the diagram"),
  shieldsMissing: past("shields missing", "bare bases with shield clips, empty screw holes round a can or a coil"),
  slugsTurned: past("slugs or trimmers turned", "bare metal in the slots, broken wax or a missing seal"),
  accessoryCame: past("accessory that came along with it", "on its cable or beside the set"),
});
export type HistoryName = keyof typeof history;
export const historyNames = Object.keys(history) as readonly HistoryName[];
/** Whether something is so as far as anybody knows. */
export const isSo = (word: string | undefined): boolean => word === "seen" || word === "told";
/** What the past says of the slugs, in the words that a fit of the strip takes; undefined where nobody knows. */
export const slugsByHistory = (word: string | undefined): "yes" | "not" | undefined =>
  isSo(word) ? "yes" : word === "not so" ? "not" : undefined;

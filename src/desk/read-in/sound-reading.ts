import type { Reading } from "../../job/document";
import type { Stamp } from "../../job/works";
import { readingId } from "./asking";

type Own = Pick<Reading, "state" | "step" | "file" | "columns" | "figures" | "warnings"> & Partial<Pick<Reading, "thermal">>;
/** What was heard as a reading: what all of them have alike, and what is its own. A set that is listened to is warm, where nothing else is said. */
export const soundReading = (own: Own, stamp: Stamp): Reading => ({
  id: readingId(stamp),
  as: "recording",
  stage: "",
  instrument: "",
  thermal: "warm",
  ...own,
});

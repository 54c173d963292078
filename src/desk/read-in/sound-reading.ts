import type { Reading } from "../../job/document";
import { thermalAt } from "../../job/sitting";
import type { JobView } from "../../job/view";
import type { Stamp } from "../../job/works";
import { readingId } from "./asking";

type Own = Pick<Reading, "state" | "step" | "file" | "columns" | "figures" | "warnings"> & Partial<Pick<Reading, "thermal">>;
/** What was heard as a reading: what all of them have alike, and what is its own. */
export const soundReading = (view: JobView, own: Own, stamp: Stamp): Reading => ({
  id: readingId(stamp),
  as: "recording",
  stage: "",
  instrument: "",
  ...own,
  thermal: thermalAt(view, stamp.at, own.thermal),
});

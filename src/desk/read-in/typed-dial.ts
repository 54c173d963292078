import type { Entry, Reading } from "../../job/document";
import { thermalAt } from "../../job/sitting";
import type { JobView } from "../../job/view";
import type { Stamp } from "../../job/works";
import type { ZeroBeats } from "../../readings/zero-beats";
import { defaultStep, readingId } from "./asking";
import { zeroBeatFigures } from "./figures";

interface Own {
  readonly state: Reading["state"];
  readonly thermal: Reading["thermal"] | undefined;
  readonly band: string;
  readonly setPoint: string | undefined;
  readonly beats: ZeroBeats;
  readonly warnings: readonly string[];
}
/** Zero beats typed in, one or a row of them, as an entry; warm or cold as the sitting has it, where it is not said. */
export const typedDial = (view: JobView, own: Own, stamp: Stamp): Entry => ({
  id: stamp.newId(),
  at: stamp.at,
  who: stamp.who,
  kind: "reading",
  reading: {
    id: readingId(stamp),
    as: "dial",
    state: own.state,
    step: defaultStep.dial,
    stage: "",
    instrument: "",
    thermal: thermalAt(view, stamp.at, own.thermal),
    band: own.band,
    setPoint: own.setPoint,
    file: { name: "typed in", hash: "" },
    columns: { reading: [...own.beats.reading], frequencyHz: [...own.beats.frequencyHz], approach: [...own.beats.approach] },
    figures: zeroBeatFigures(own.beats, "typed in"),
    warnings: [...own.warnings],
  },
});

import { addressAt } from "../set/addresses";
import { isSo } from "../set/addresses/history";
import { stripAsFitted } from "../set/as-fitted";
import type { Bench } from "../set/bench";
import { rowsFromStore } from "../set/columns";
import type { SetDescription, StoredRow } from "../set/describe";
import { withTurnedSlugs } from "../set/history";
import { lookUp, quantityAt } from "../set/paths";
import type { DescribedStrip } from "../set/strip";
import { writingOn } from "./cards";
import { dialPoints } from "./dial-beats";
import { type JobView, viewOf } from "./fold";
import { formatName, formatVersion } from "./format";
import { rowsAsMended } from "./mended-rows";
import { ofKind, placeIn } from "./place-in";
import { readAs } from "./readings-in";

/** So much of a card's field is looked at where a sheet reads a figure or a kind out of it. */
const longestCell = 200;
/** A path without the set-point that a band may be asked about at: `bands.80:3.5 MHz.low` is `bands.80.low`. */
const withoutSetPoint = (path: string): string => path.replace(/^(bands\.[^.:]+):.*?(?=\.[A-Za-z]+$|$)/, "$1");

/** Whether rows tell of a stage or the supply as it stood before a part was changed there: follow-up tests that were made of the old one. */
function isOfOldPart(view: JobView, path: string): boolean {
  const [, place] = /^(stages\.[^.]+|supplies)\.tests$/.exec(path) ?? [];
  if (place === undefined) return false;
  const made = placeIn(view.inForce, view.kept.get(path));
  return placeIn(view.inForce, ofKind(view.inForce, "part").findLast((e) => e.place === place)?.id) > made;
}

/**
 * The view of the job that sheets may ask.
 *
 * @param view the job
 * @param at subject of the question, such as `fittings.qm`
 * @returns what a sheet may read of the job, SI
 * @source house frame
 */
export function benchOf(view: JobView, at: string): Bench {
  const { set } = view;
  const turned = isSo(set.topics?.history?.choices?.slugsTurned);
  const opened = (strip: DescribedStrip): DescribedStrip => (turned ? withTurnedSlugs(strip) : strip);
  return {
    at,
    points: (where) => dialPoints(view, where),
    card: (id) =>
      rowsAsMended(view, id).map((row) => Object.fromEntries(Object.entries(row).map(([c, text]) => [c, text.slice(0, longestCell)]))),
    cardField: (id, field) => writingOn(view, id).get(field)?.text.slice(0, longestCell),
    tubes: () => set.tubes,
    stageKinds: () => set.stages.map((stage) => stage.kind),
    bands: () => set.bands.map((b) => ({ label: b.label, low: b.low.value, high: b.high.value, oscillator: b.oscillator })),
    quantity: (path) => quantityAt(set, withoutSetPoint(path)),
    isGuessed: (path) => Object.hasOwn(set.guessed ?? {}, withoutSetPoint(path)),
    choice: (path) => {
      if (path === "chassis") return view.chassis;
      if (path === "readings.reach60dB")
        return readAs(view.inForce, "if-sweep").some((e) => e.reading.figures.some((f) => f.name === "width at -60 dB" && f.quantity))
          ? "yes"
          : "no";
      const x = lookUp(set, withoutSetPoint(path));
      return typeof x === "string" ? x : undefined;
    },
    rows: (path) => {
      if (isOfOldPart(view, path)) return undefined;
      const stored = lookUp(set, withoutSetPoint(path));
      const at = addressAt(withoutSetPoint(path));
      return Array.isArray(stored) && at?.kind === "list" ? rowsFromStore(stored as readonly StoredRow[], at.columns) : undefined;
    },
    strip: () => opened(set.strip),
    stripAsFitted: () => opened(stripAsFitted(set)),
    estimate: (id) => view.estimates.get(id),
  };
}

/**
 * Bench of a described set that is no job, its chassis as described: for studies and tests. In a job the chassis is proved.
 *
 * @source house frame
 */
export function benchOfSet(set: SetDescription, at: string): Bench {
  const view = viewOf({ format: formatName, version: formatVersion, id: "none", name: set.pattern, created: "", set, entries: [] });
  const { state, isolation } = set.chassis;
  return benchOf({ ...view, chassis: state === "live" && isolation === "proved-dead" ? "live-proved-dead" : state }, at);
}

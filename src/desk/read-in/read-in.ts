import type { Entry, Reading } from "../../job/document";
import { thermalAt } from "../../job/sitting";
import type { JobView } from "../../job/view";
import type { Stamp } from "../../job/works";
import { isFlac } from "../../readings/sound/flac-head";
import { hashOfBytes } from "../../store/archive";
import type { StoredFile } from "../../store/store";
import { good, type Read } from "../../units/issue";
import { defaultStep, misaddressed, type ReadIn, type ReadingAsk, readingId } from "./asking";
import { storedEstimate, stripMadeOf } from "./fitted-strip";
import { type Numbers, numbersOf } from "./numbers";

const stateWords = { "as-found": "as found", "as-left": "as left" } as const;
/** The same bytes once more: said, with the reading that holds them already. */
function sameFile(view: JobView, hash: string, state: ReadingAsk["state"]): string[] {
  const had = view.readings.find((r) => r.file.hash !== "" && r.file.hash === hash);
  if (!had) return [];
  const other = had.state === state ? "" : `, and this as ${stateWords[state].slice(3)}: nothing can have changed in between`;
  return [`the same file is in the job already, as reading ${had.id}, kept ${stateWords[had.state]}${other}`];
}

/** What a reading is said to be, as it is kept. */
const asSaid = (view: JobView, how: ReadingAsk, stamp: Stamp) => ({
  as: how.as,
  state: how.state,
  step: how.step ?? defaultStep[how.as],
  stage: how.stage ?? "",
  instrument: how.instrument ?? "",
  thermal: thermalAt(view, stamp.at, how.thermal),
  ...(how.lineVoltage ? { lineVoltage: how.lineVoltage } : {}),
  ...(how.invented ? { invented: how.invented } : {}),
  ...(how.band ? { band: how.band, setPoint: how.setPoint ?? "" } : {}),
});

interface NamedBytes {
  readonly name: string;
  readonly bytes: Uint8Array;
}
/**
 * Reads a file into a job without storing it: the reading with its figures and, for a sweep of the IF strip, the strip fitted to it.
 *
 * @param view the job as it stands
 * @param file name and bytes
 * @param how what the reading is
 * @param stamp time, person, ids
 * @returns entries and file to append, or the located issue
 * @throws {InputError} where a packed recording is damaged further on
 */
export async function readFileIn(view: JobView, file: NamedBytes, how: ReadingAsk, stamp: Stamp): Promise<Read<ReadIn>> {
  const refused = misaddressed(view, how);
  if (refused) return refused;
  const numbers = await numbersOf(file.bytes, file.name, how);
  return numbers.ok ? readNumbersIn(view, { ...file, numbers: numbers.value }, how, stamp) : numbers;
}
/**
 * As readFileIn, the file's numbers being read already.
 *
 * @param view the job as it stands
 * @param file name, bytes and numbers
 * @param how what the reading is
 * @param stamp time, person, ids
 * @returns entries and file to append, or the located issue
 */
export function readNumbersIn(
  view: JobView,
  file: NamedBytes & { readonly numbers: Numbers },
  how: ReadingAsk,
  stamp: Stamp,
): Read<ReadIn> {
  const { numbers } = file;
  const stored: StoredFile = {
    hash: hashOfBytes(file.bytes),
    name: file.name,
    media: how.as === "recording" ? (isFlac(file.bytes) ? "audio/flac" : "audio/wav") : "text/plain",
    bytes: file.bytes,
  };
  const id = readingId(stamp);
  const reading: Reading = {
    id,
    ...asSaid(view, how, stamp),
    file: { name: stored.name, hash: stored.hash },
    columns: numbers.columns,
    figures: [...numbers.figures],
    warnings: [...numbers.warnings, ...sameFile(view, stored.hash, how.state)],
  };
  const head = () => ({ id: stamp.newId(), at: stamp.at, who: stamp.who });
  const entries: Entry[] = [{ ...head(), kind: "reading", reading }];
  if (how.as !== "if-sweep" || how.withoutFit) return good({ reading, entries, file: stored });
  const made = stripMadeOf(view, reading);
  if (!made.ok) return made;
  reading.warnings.push(...made.value.warnings);
  const { fit } = made.value;
  if (!fit) return good({ reading, entries, file: stored });
  const note = `strip fitted to ${file.name}: ${fit.usedPoints} points, misses them by ${fit.rmsDb.toFixed(2)} dB rms`;
  entries.push({ ...head(), kind: "estimate", estimate: storedEstimate(fit), note });
  entries.push({ ...head(), kind: "values", values: { ...fit.values }, why: `fit to reading ${id}`, fit: fit.estimate.id });
  return good({ reading, entries, file: stored, fit });
}

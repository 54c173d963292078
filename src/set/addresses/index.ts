import { accessory, centre, states, transformer } from "./accessory";
import { alignment } from "./alignment";
import { bands } from "./bands";
import { capacitors } from "./capacitors";
import { chart } from "./chart";
import { coil } from "./coil";
import { converter } from "./converter";
import { crystal } from "./crystal";
import type { Addressed } from "./declare";
import { dial } from "./dial";
import { drift } from "./drift";
import { gain } from "./gain";
import { history } from "./history";
import { calibrator, markers, shared } from "./markers";
import { minutes } from "./minutes";
import { joint } from "./plate-joint";
import { itself, line, nodes, supplies } from "./power";
import { multiplier } from "./q-multiplier";
import { regulator } from "./regulator";
import { sMeter } from "./s-meter";
import { safety } from "./safety";
import { sensitivity } from "./sensitivity";
import { bfo, stages } from "./stages";
import { supplyTests } from "./supply-tests";
import { tracking } from "./tracking";
import { adjusters, audio, place, strip } from "./whole";

/** Every address of the job, each declared once. */
export const addressed: readonly Addressed[] = [
  accessory,
  centre,
  states,
  transformer,
  alignment,
  bands,
  capacitors,
  chart,
  coil,
  converter,
  crystal,
  dial,
  drift,
  gain,
  history,
  shared,
  markers,
  calibrator,
  minutes,
  joint,
  itself,
  line,
  nodes,
  supplies,
  supplyTests,
  multiplier,
  regulator,
  sMeter,
  safety,
  sensitivity,
  bfo,
  stages,
  tracking,
  adjusters,
  audio,
  place,
  strip,
].flatMap((holder): readonly Addressed[] => Object.values(holder));

const byAddress = new Map(addressed.map((a) => [a.address, a]));
/** Holders of the set's own description; what stands at any other is kept by topic and name. */
const described = ["line", "place", "supplies", "strip", "adjusters", "audio", "bands", "stages", "fittings"];
/** Topics under which a question keeps what is about the whole set and is no part of its description, such as `coil`. */
export const topics: readonly string[] = [...new Set(addressed.map((a) => a.address.split(".")[0]))].filter(
  (t) => !described.includes(t) && addressed.some((a) => a.address.startsWith(`${t}.`)),
);

/**
 * What is declared at a path of a set: `bands.80.low` is at the address `bands.*.low`.
 *
 * @param path path of a set
 * @returns its declaration; undefined where none is
 * @source house frame
 */
export function addressAt(path: string): Addressed | undefined {
  const own = byAddress.get(path);
  if (own) return own;
  const keys = path.split(".");
  // the subject is the second part, or the third at the nodes of the supplies
  for (const k of [1, 2]) {
    if (k >= keys.length - 1) continue;
    const found = byAddress.get(keys.map((key, i) => (i === k ? "*" : key)).join("."));
    if (found) return found;
  }
  return undefined;
}

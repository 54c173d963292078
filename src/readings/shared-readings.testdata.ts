import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** Real readings by others. Small ones whose licence allows it travel with the project; all may lie beside it. A clone without those still passes, and says so. */
const beside = new URL("../../../shared/readings/", import.meta.url);
const within = new URL("../../samples/readings/", import.meta.url);
const fullHere = existsSync(beside);
if (!fullHere) console.info("skipped: the larger readings are not here");
const place = (path: string): URL => new URL(path, existsSync(new URL(path, within)) ? within : beside);
/** Whether a file, or every file of a list, can be read. */
export const here = (...paths: readonly string[]): boolean => paths.every((p) => existsSync(place(p)));
export const bytesOf = (path: string): Uint8Array => new Uint8Array(readFileSync(fileURLToPath(place(path))));
export const reference = JSON.parse(readFileSync(fileURLToPath(new URL("REFERENCE.json", fullHere ? beside : within)), "utf8")) as Record<
  string,
  never
>;

import { bad, type Read } from "../../units/issue";
import { ceramicDots } from "./ceramic-dots";
import { type Told, words } from "./colours";
import { letters } from "./letters";
import { micaDots } from "./mica-dots";
import { bands, bodyEndDot } from "./resistors";

const readers = {
  bands: { says: "resistor, bands from one end", read: (s: string) => bands(words(s)) },
  "body-end-dot": { says: "resistor, body, end, dot", read: (s: string) => bodyEndDot(words(s)) },
  "mica-dots": {
    says: "mica capacitor, three, five or six dots (top row, then bottom row from right to left)",
    read: (s: string) => micaDots(words(s)),
  },
  "ceramic-dots": { says: "ceramic capacitor, five colours", read: (s: string) => ceramicDots(words(s)) },
  code: { says: "digits and letters", read: letters },
} as const;
export const markKinds = Object.entries(readers).map(([id, r]) => ({ id: id as keyof typeof readers, says: r.says }));

/**
 * What a mark says.
 *
 * @param kind which code
 * @param said colours by name, in order, or the code
 * @returns value, tolerance, and how else it may be read; or the place that is wrong
 * @source IEC 60062, RMA and JAN codes; each table says what was read and what is from memory
 */
export function tellMark(kind: string, said: string): Read<Told> {
  if (!Object.hasOwn(readers, kind)) return bad("kind", "no-kind", kind, `one of ${Object.keys(readers).join(", ")}`);
  return readers[kind as keyof typeof readers].read(said);
}

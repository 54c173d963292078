/**
 * What stands in a bulb, and at which pin: by type. Kinds and basing as registered with RETMA and JEDEC and printed in the makers' receiving-tube
 * manuals, from memory.
 */
export const unitKinds = ["pentode", "output", "triode", "converter", "diode", "rectifier", "gas", "eye"] as const;
export type UnitKind = (typeof unitKinds)[number];
export interface BulbPin {
  readonly electrode: "plate" | "screen" | "cathode" | "grid" | "heater" | "other";
  /** which of the bulb's units it is of, from 0; undefined where they share it */
  readonly unit: number | undefined;
}
export interface Bulb {
  readonly type: string;
  readonly units: readonly UnitKind[];
  /** by pin, from 1; empty where the basing is not in the table */
  readonly pins: ReadonlyMap<number, BulbPin>;
  /** pins of its base, those that nothing of DC ends at among them: seven, octal's eight or noval's nine; 0 where the basing is not in the table */
  readonly contactCount: number;
}
/** Bases, pin by pin: p, s, k, g, h, or a dot where nothing of DC stands; a, b, c tell whose it is. */
const bases = {
  "7BK": "g . h h p s k",
  "7CM": "g k h h p s .",
  "7CH": "g k h h p s g",
  "6BT": "ka pb h h kb . pa",
  "7BT": "ga k h h pb pc pa",
  "7BZ": "g k h h p s g",
  "7CV": "k g h h g s p",
  "6BG": "p . h h p g k",
  "5BS": "pa . h h . pb k",
  "5BQ": ". . h h p h k",
  "9A": "pa ga ka h h pb gb kb h",
  "9AJ": "pa ga ka h h pb gb kb .",
  "9CV": ". g k h h . p . s",
  "9AE": "pa gb sb h h pb kb ka ga",
  "8N": ". h . g k s h p",
  "8BK": ". h k g k s h p",
  "8R": ". h p s g k h g",
  "8Q": ". ga k pb pc pa h h",
  "8BD": "ga pa ka gb pb kb h h",
  "8S": ". pa ga gb pb k h h",
  "7AC": ". h p s g . h k",
  "7R": ". h p s . . h k",
  "7V": ". h pa pb pc . h k",
  "7Q": ". h pa ka pb . h kb",
  "6Q": ". h p . g . h k",
  "8A": ". h p s g p h k",
  "8K": ". h p s g p h k",
  "5T": ". h . pa . pb . h",
  "6S": ". h pa . pb . h k",
  "6AD": ". h h . p . h k",
  "5BO": "p k . k p . k",
  "4AJ": ". k . . p . . .",
} as const;
type Row = readonly [types: string, units: string, base?: keyof typeof bases];
const rows: readonly Row[] = [
  // miniature, seven pins
  ["6BA6 12BA6 EF93 6AU6 12AU6 EF94", "pentode", "7BK"],
  ["6CB6 6BZ6 6DC6 6BH6 6BJ6 6DK6 6EW6", "pentode", "7CM"],
  ["6AK5 5654 6AG5 6AH6 6DE6 6GM6 6HS6 6BC5 12AW6", "pentode"],
  ["6BE6 12BE6 EK90 6CS6", "converter", "7CH"],
  ["6AL5 12AL5 EB91 EAA91 5726", "diode diode", "6BT"],
  ["6AV6 12AV6 EBC91 6AT6 12AT6 EBC90", "triode diode diode", "7BT"],
  ["6AQ5 12AQ5 EL90 6005 50B5 35B5", "output", "7BZ"],
  ["50C5 35C5", "output", "7CV"],
  ["6C4 EC90", "triode", "6BG"],
  ["6AB4 6AF4", "triode"],
  ["6J6 ECC91", "triode triode"],
  ["6AK6", "output"],
  ["6X4 12X4 EZ90", "rectifier rectifier", "5BS"],
  ["35W4", "rectifier", "5BQ"],
  ["0A2 0B2 0C2", "gas", "5BO"],
  // noval
  ["12AX7 ECC83 7025 12AU7 ECC82 12AT7 ECC81 12AY7 12AV7", "triode triode", "9A"],
  ["6DJ8 ECC88 6BQ7 6BZ7 6BK7", "triode triode", "9AJ"],
  ["6CG7 6FQ7 12BH7", "triode triode"],
  ["6BQ5 EL84", "output", "9CV"],
  ["6BL8 ECF80 6U8 ECF82 6EA8 6GH8", "triode pentode", "9AE"],
  ["6AN8 6AW8 6AU8 6AZ8 6X8 6GX6 6T9", "triode pentode"],
  ["6BM8 ECL82 6GW8 ECL86", "triode pentode"],
  ["6T8", "triode diode diode diode"],
  ["6BY6", "converter"],
  ["6AJ8 ECH81", "converter triode"],
  ["6CW5 EL86 6GK6 6EM5", "output"],
  ["6BW6", "output"],
  ["6CA4 EZ81 6V4 EZ80", "rectifier rectifier"],
  // octal
  ["6SK7 12SK7 6SJ7 12SJ7 6SS7", "pentode", "8N"],
  ["6SG7 12SG7 6SH7 12SH7", "pentode", "8BK"],
  ["6AB7 6AC7", "pentode", "8N"],
  ["6K7 6J7 6S7 6U7 12K7 12J7", "pentode", "7R"],
  ["6SA7 12SA7 6SB7Y", "converter", "8R"],
  ["6A8 12A8", "converter", "8A"],
  ["6K8 12K8", "converter", "8K"],
  ["6L7", "converter"],
  ["6J8", "converter"],
  ["6SQ7 12SQ7 6SR7 6SZ7", "triode diode diode", "8Q"],
  ["6Q7 12Q7 6R7", "triode diode diode", "7V"],
  ["6SN7 12SN7 6SL7 12SL7", "triode triode", "8BD"],
  ["6SC7 12SC7", "triode triode", "8S"],
  ["6C8 6F8", "triode triode"],
  ["6J5 12J5 6C5 6P5 6L5", "triode", "6Q"],
  ["6F5 6SF5", "triode"],
  ["6H6 12H6", "diode diode", "7Q"],
  ["6V6 6L6 5881 25L6 35L6 50L6 6Y6", "output", "7AC"],
  ["6F6 6K6", "output", "7AC"],
  ["6B8 6SF7", "pentode diode diode"],
  ["6E5 6U5 6G5 6AF6 6N5 1629 EM84 6FG6", "eye"],
  ["5Y3 5U4 5R4 5AS4 5W4 5X4 5T4", "rectifier rectifier", "5T"],
  ["5V4 5Z4 5AR4 GZ34", "rectifier rectifier", "5T"],
  ["6X5 6W5", "rectifier rectifier", "6S"],
  ["35Z5", "rectifier", "6AD"],
  ["35Z4", "rectifier"],
  ["25Z6 50Y6 25Z5 117Z6", "rectifier rectifier"],
  ["117Z3", "rectifier"],
  ["0A3 VR75 0B3 VR90 0C3 VR105 0D3 VR150", "gas", "4AJ"],
  ["991", "gas"],
  // earlier bases
  ["80 83 5Z3 84 6Z4 82", "rectifier rectifier"],
  ["6D6 78 58 39 44 77 57 6C6 24 35 51", "pentode"],
  ["6A7 2A7 6F7", "converter"],
  ["75 2A6 85 55", "triode diode diode"],
  ["76 56 27 37", "triode"],
  ["42 41 2A5 47 43 38", "output"],
  ["45 2A3", "output"],
  ["6B7 2B7", "pentode diode diode"],
];
const electrodes = { p: "plate", s: "screen", k: "cathode", g: "grid", h: "heater" } as const;
function pinsOf(base: keyof typeof bases | undefined): ReadonlyMap<number, BulbPin> {
  const each = base === undefined ? [] : bases[base].split(" ");
  return new Map(
    each.flatMap((said, i): readonly (readonly [number, BulbPin])[] => {
      const electrode = electrodes[said[0] as keyof typeof electrodes];
      return electrode === undefined ? [] : [[i + 1, { electrode, unit: said.length > 1 ? "abc".indexOf(said[1]) : undefined }]];
    }),
  );
}
const byType: ReadonlyMap<string, Bulb> = new Map(
  rows.flatMap(([types, units, base]) => {
    const pins = pinsOf(base);
    const contactCount = base === undefined ? 0 : bases[base].split(" ").length;
    return types.split(" ").map((type) => [type, { type, units: units.split(" ") as UnitKind[], pins, contactCount }] as const);
  }),
);
export const bulbs: readonly Bulb[] = [...byType.values()];

/** What makers put behind a type for glass, later issues and selected ones. */
const suffix = /(?:GT|G|GTA|GTB|GTY|GA|GB|GY|A|B|WA|WB|WC|W|X|Y|M|MG)$/;
/**
 * The names that a type may be known by: as written, then without what makers put behind it.
 *
 * @param said one word, such as `6V6GT`, `12AX7A`, `OA2`
 * @returns names in capitals, the closest first
 * @source common practice of makers' type numbers, from memory
 */
export function namesOfType(said: string): readonly string[] {
  // a zero is often written as a letter at the front of a gas tube's type
  let name = said.toUpperCase().replace(/^O(?=[A-DZ]\d)/, "0");
  const out = [name];
  while (suffix.test(name) && name.replace(suffix, "").length > 1) {
    name = name.replace(suffix, "");
    out.push(name);
  }
  return out;
}
/**
 * What stands in the bulb of a type.
 *
 * @param said as a list of tubes writes it: `6BA6`, `6V6-GT/G`, `6U8 triode`, `VR150/30`
 * @returns the row; undefined where the table has none
 * @source tables above
 */
export function bulbOf(said: string): Bulb | undefined {
  for (const word of said.split(/[^A-Za-z0-9]+/))
    for (const name of namesOfType(word)) {
      const hit = byType.get(name);
      if (hit) return hit;
    }
  return undefined;
}
/** Units of a bulb that amplify or detect by themselves: what two duties can be told apart by. */
export const isAmplifying = (unit: UnitKind): boolean => ["pentode", "output", "triode", "converter"].includes(unit);

/** Bodies over the schema of what a command takes: fields said as they may be, said badly, of the wrong type, or left out. Drawn by chance, quickly, so that millions can be sent. */
import fc from "fast-check";
import { z } from "zod";
import { demoSet } from "../../src/desk/demo";
import { forms } from "../../src/job/forms";
import { partKinds } from "../../src/job/mending/kinds";
import { workKinds } from "../../src/job/ripple";
import { steps } from "../../src/job/steps";
import { sheets } from "../../src/sheets/index";
import { type Chance, nasty, some } from "./kit";

export const pickBy = <T>(chance: Chance, of: readonly T[]): T => of[Math.floor(chance() * of.length)];
const set = demoSet();
/** Words that commands know, so that what is sent comes as far as the job. */
const known = [
  ...steps.map((s) => s.id),
  ...forms.map((f) => f.id),
  ...forms.flatMap((f) => f.fields.slice(0, 3)),
  ...workKinds.map((w) => w.id),
  ...partKinds.map((p) => p.id),
  ...sheets.map((s) => s.id),
  ...set.stages.map((s) => `stages.${s.id}`),
  ...["set", "supplies", "line.today", "plateWatts", "place.region", "fittings.qm", "tubes", "V1", "e1", "80", "a"],
  ...["121 V", "65 W", "3.6 MHz", "0.05 uF", "330 ohm", "3 ft", "12.4", "up", "warm", "measured", "stated", "J., 3 May"],
];
const bad = some(nasty, 4000);
const strange: readonly unknown[] = [null, 0, -1, 1e9, true, [], {}, [null], { a: { b: [] } }, "", Number.MAX_SAFE_INTEGER];

interface Schema {
  readonly type?: string;
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly anyOf?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: Schema | boolean;
  readonly items?: Schema;
}
/** What commands take, in the open format of schemas; read once. */
export const schemaOf = (takes: z.ZodType): Schema => z.toJSONSchema(takes, { io: "input", unrepresentable: "any" }) as Schema;
const word = (chance: Chance): string => pickBy(chance, chance() < 0.6 ? known : bad);
/** Something that a schema allows, or something near it. */
export function said(schema: Schema, chance: Chance): unknown {
  if (chance() < 0.06) return pickBy(chance, strange);
  if (schema.anyOf) return said(pickBy(chance, schema.anyOf), chance);
  if (schema.const !== undefined) return schema.const;
  if (schema.enum) return chance() < 0.9 ? pickBy(chance, schema.enum) : word(chance);
  switch (schema.type) {
    case "boolean":
      return chance() < 0.5;
    case "integer":
    case "number":
      return chance() < 0.8 ? Math.floor(chance() * 20) : pickBy(chance, [-1, 0.5, 1e300, -1e9]);
    case "array":
      return Array.from({ length: Math.floor(chance() * 4) }, () => said(schema.items ?? {}, chance));
    case "object":
      return objectOf(schema, chance);
    default:
      return word(chance);
  }
}
function objectOf({ properties = {}, additionalProperties }: Schema, chance: Chance): Record<string, unknown> {
  const own = Object.entries(properties).flatMap(([k, s]) => (chance() < 0.88 ? [[k, said(s, chance)] as const] : []));
  const more =
    typeof additionalProperties === "object"
      ? Array.from({ length: Math.floor(chance() * 3) }, () => [word(chance), said(additionalProperties, chance)] as const)
      : chance() < 0.03
        ? [[word(chance), word(chance)] as const]
        : [];
  return Object.fromEntries([...own, ...more]);
}
/** Bodies that are of no schema: JSON of any shape, and what is no JSON. */
export const shapeless: readonly string[] = [
  ...some(fc.json(), 500),
  ...bad.slice(0, 200),
  "[".repeat(5000),
  `{"entries":${"[".repeat(3000)}`,
  '{"__proto__":{"x":1}}',
  "{",
];

import { z } from "zod";
import { bad, good, type Read } from "../../units/issue";

/** One command line to an instrument: printable, one line, each thing that it carries between braces. */
const lineOf = (says: string, carries: readonly string[], asks: boolean) =>
  z
    .string()
    .min(1)
    .max(200)
    .refine((t) => /^[\x20-\x7e]+$/.test(t), { message: "one line of plain characters" })
    .refine((t) => carries.every((c) => t.includes(`{${c}}`)), { message: `a command with ${carries.map((c) => `{${c}}`).join(", ")}` })
    .refine((t) => t.replace(/\{(\w+)\}/g, (all, name: string) => (carries.includes(name) ? "" : all)).match(/[{}]/) === null, {
      message: carries.length > 0 ? `nothing between braces but ${carries.join(", ")}` : "nothing between braces",
    })
    .refine((t) => t.includes("?") === asks, { message: asks ? "a question, with its question mark" : "a command that asks nothing" })
    .describe(says);
const asksNumber = (says: string) => lineOf(says, [], true);
const common = {
  identity: asksNumber("who are you"),
  nextError: asksNumber("the next error on your list"),
  clear: lineOf("forget errors", [], false),
};

/** Commands of a kind of instrument: what each must look like, and how the open standard has them. */
export interface KindOfInstrument<C extends Readonly<Record<string, string>>> {
  readonly schema: z.ZodType<C>;
  readonly standard: C;
}
const kindOf = <C extends Readonly<Record<string, string>>>(schema: z.ZodType<C>, standard: C): KindOfInstrument<C> => ({
  schema,
  standard,
});
const usual = { identity: "*IDN?", nextError: "SYST:ERR?", clear: "*CLS" };
/**
 * What each kind of instrument is told: in the words of the open standard where nobody has written others.
 *
 * @source SCPI-99, from memory
 */
export const generator = kindOf(
  z.strictObject({
    ...common,
    frequency: lineOf("go to this frequency, in Hz", ["Hz"], false),
    level: lineOf("give this level, in dBm", ["dBm"], false),
    modulationDepth: lineOf("amplitude modulation to this depth, in per cent", ["percent"], false),
    modulationTone: lineOf("frequency of the modulation, in Hz", ["Hz"], false),
    modulationOn: lineOf("modulation on", [], false),
    modulationOff: lineOf("modulation off", [], false),
    outputOn: lineOf("output on", [], false),
    outputOff: lineOf("output off", [], false),
    isOutputOn: asksNumber("is the output on"),
  }),
  {
    ...usual,
    frequency: "FREQ {Hz} HZ",
    level: "POW {dBm} DBM",
    modulationDepth: "AM {percent}",
    modulationTone: "AM:INT:FREQ {Hz} HZ",
    modulationOn: "AM:STAT ON",
    modulationOff: "AM:STAT OFF",
    outputOn: "OUTP ON",
    outputOff: "OUTP OFF",
    isOutputOn: "OUTP?",
  },
);
export const voltmeter = kindOf(z.strictObject({ ...common, acVolts: asksNumber("AC volts, rms"), dcVolts: asksNumber("DC volts") }), {
  ...usual,
  acVolts: "MEAS:VOLT:AC?",
  dcVolts: "MEAS:VOLT:DC?",
});
export const counter = kindOf(z.strictObject({ ...common, frequency: asksNumber("frequency, in Hz") }), {
  ...usual,
  frequency: "MEAS:FREQ?",
});
export const instrumentKinds = { generator, voltmeter, counter } as const;
export type GeneratorCommands = typeof generator.standard;
export type VoltmeterCommands = typeof voltmeter.standard;

const expected = "commands by name, as `fettle instrument-commands` prints them";
/**
 * An instrument's own commands from a file that a person has edited; what it leaves out is as the standard has it.
 *
 * @param kind of instrument
 * @param text JSON
 * @param name file, for the issue
 * @returns the commands, or the issue that names the one that can't be used
 * @source house frame
 */
export function readCommands<C extends Readonly<Record<string, string>>>(kind: KindOfInstrument<C>, text: string, name: string): Read<C> {
  let typed: unknown;
  try {
    typed = JSON.parse(text);
  } catch {
    return bad(name, "not-json", text, expected);
  }
  if (typeof typed !== "object" || typed === null || Array.isArray(typed)) return bad(name, "not-commands", text, expected);
  const r = kind.schema.safeParse({ ...kind.standard, ...typed });
  if (r.success) return good(r.data);
  const [issue] = r.error.issues;
  if (issue.code === "unrecognized_keys")
    return bad(`${name}: ${issue.keys.join(", ")}`, "no-command", "", `one of ${Object.keys(kind.standard).join(", ")}`);
  const field = issue.path.map(String).join(".");
  const read = Object.entries(typed).find(([key]) => key === field)?.[1];
  return bad(`${name}: ${field}`, "bad-command", typeof read === "string" ? read : JSON.stringify(read), issue.message);
}

/**
 * A command with what it carries.
 *
 * @param command as written, with braces
 * @param carries numbers by name, each already rounded to what the instrument should get
 * @returns the line to send
 * @source house frame
 */
export const filledIn = (command: string, carries: Readonly<Record<string, number>>): string =>
  command.replace(/\{(\w+)\}/g, (all, name: string) => (name in carries ? String(carries[name]) : all));

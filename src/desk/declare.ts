import { z } from "zod";
import { InputError } from "../units/issue";
import { origins } from "../units/quantity";
import type { Desk } from "./actions";
import type { Accompanied, Errands } from "./errand";
import type { Role } from "./roles";

/** How a field of a command is typed on the command line. */
export interface Typed {
  /** `<step>`, `[entry]`, `<marks...>`, `--note <text>`, `--all`; none where the command line doesn't offer it */
  readonly usage?: string;
  readonly says: string;
  /** what the command line says where nothing is typed; other faces say it themselves, or leave it to the schema */
  readonly unsaid?: unknown;
  /** what an option without a value says */
  readonly given?: unknown;
  /** an option that may be repeated, or an argument of several words: what the words say */
  readonly words?: (words: readonly string[]) => unknown;
  /** the words to choose from, where they are fewer than the schema's own */
  readonly choices?: readonly string[];
  /** names a file, whose name and bytes are what is said; one that is read in pieces is never whole in memory */
  readonly file?: boolean | "in pieces";
}
type How<S extends z.ZodType> = Omit<Typed, "usage" | "says" | "unsaid" | "given" | "words"> & {
  readonly unsaid?: z.input<S>;
  readonly given?: z.input<S>;
  readonly words?: (words: readonly string[]) => z.input<S>;
};
const typed = z.registry<Typed>();

/**
 * A field of a command with how it is typed: the schema itself, of its own type, so that what is said flows from it to the action.
 *
 * @param schema what every face's word for it is checked by
 * @param usage as a terminal has it: `<step>`, `[entry]`, `--note <text>`
 * @param says what it is, for help and manual
 * @param how what stands where nothing is typed, and how words are read
 */
export function field<S extends z.ZodType>(schema: S, usage: string, says: string, how: How<S> = {}): S {
  const own = schema.clone();
  typed.add(own, { usage, says, ...how });
  return own;
}
/** A field that the command line doesn't offer, and what it says of it. */
export function unseen<S extends z.ZodType>(schema: S, unsaid: z.input<S>): S {
  const own = schema.clone();
  typed.add(own, { says: "", unsaid });
  return own;
}
/** A file: on a command line by its path, in a request as an upload. */
export const fileSchema = z.object({ name: z.string(), bytes: z.instanceof(Uint8Array, { message: "a file" }) });
/** A file that may be longer than memory: on a command line by its path, or a dash for what is piped in. */
export interface LongFile {
  readonly name: string;
  /** undefined of what is piped in */
  readonly bytesCount?: number | undefined;
  readonly pieces: () => AsyncIterable<Uint8Array>;
}
export const longFileSchema = z.custom<LongFile>((f) => typeof f === "object" && f !== null && "pieces" in f, { message: "a file" });
/** The job that a command is about. */
export const job = () => field(z.string(), "<job>", "name of the job");
/** An option without a value: said or not. */
export const flag = (usage: string, says: string) => field(z.boolean(), usage, says, { given: true, unsaid: false });
/** The option that replaces a file; at a terminal only. */
export const replace = (says = "replace the file if it exists") => flag("--replace", says);
/** The file that a paper is written to; at a terminal only. */
export const output = (says = "file to write") => field(z.string(), "-o, --output <file>", says);
/** Only what was said, of these. */
export const onlySaid = (said: Readonly<Record<string, string | undefined>>): Record<string, string> =>
  Object.fromEntries(Object.entries(said).flatMap(([name, text]) => (text ? [[name, text]] : [])));
/** An option that only shows: nothing is recorded. A request says whether to record. */
export const dryRun = (says: string) => field(z.boolean(), "--dry-run", says, { given: false, unsaid: true });
/** Where a value that a person records comes from. */
export const whence = () =>
  field(z.enum(origins), "--origin <origin>", "where it comes from", {
    choices: origins.filter((x) => x !== "computed" && x !== "tried" && x !== "fitted"),
    unsaid: "stated",
  });

/** One field of a command, with what is declared of it. */
export interface Field extends Typed {
  readonly name: string;
  /** it must be said */
  readonly mandatory: boolean;
  readonly options: readonly string[];
}
const optionsOf = (s: unknown): readonly string[] =>
  s instanceof z.ZodEnum ? s.options.map(String) : s instanceof z.ZodOptional || s instanceof z.ZodDefault ? optionsOf(s.unwrap()) : [];

/** Fields of a schema that the command line knows, in order. */
export const fieldsOf = (schema: z.ZodObject): readonly Field[] =>
  Object.entries(schema.shape).flatMap(([name, s]) => {
    const how = s instanceof z.ZodType ? typed.get(s) : undefined;
    if (how === undefined || !(s instanceof z.ZodType)) return [];
    const mandatory = how.unsaid === undefined && !s.safeParse(undefined).success;
    return [{ ...how, name, mandatory, options: how.given === undefined ? (how.choices ?? optionsOf(s)) : [] }];
  });

/** What a command is done at: the store, whoever does long work, and what its face lends it. */
export interface At extends Accompanied {
  readonly desk: <T>(work: (d: Desk) => Promise<T>) => Promise<T>;
  readonly errands: Errands;
  /** keeps a job's zip before the job is erased */
  readonly keep?: (zip: Uint8Array) => Promise<void>;
  /** hears what instruments do while they are at work */
  readonly bench?: AtBench;
}
/** How a face accompanies instruments at work. */
export interface AtBench {
  /** when they began, for the file */
  readonly at: string;
  /** takes each line of the reading's file as soon as it is known */
  readonly write: (text: string) => void;
  /** in large type, until `isOff`: the generator's output may be on, and nobody can tell */
  readonly mayBeOn: (says: string) => void;
  readonly isOff: () => void;
  /** waits as long as the person has it paused; undefined where he has not */
  readonly paused?: () => Promise<void> | undefined;
}
/** A paper that a route gives, shown by the browser or put among the person's downloads by its name. */
export interface Paper {
  readonly paper: Uint8Array | string;
  readonly type: string;
  readonly file?: string;
  readonly revision?: number | undefined;
}
export type Reply = Paper | Json;
interface Json {
  readonly json: unknown;
  readonly status?: 404;
  /** whether the same object always says the same, so that what was written of it once may be sent again */
  readonly stands?: true;
}
export type Method = "GET" | "POST";
/** Where the server answers a command: `:name` is the job, other names in it and in body or query are fields. */
export interface Route<Said, Done> {
  readonly method: Method;
  /** who may ask it, at least, where a shop asks who one is */
  readonly may: Role;
  readonly path: string;
  /** what a request's fields come in; a GET's in its query */
  readonly body?: "json" | "upload";
  readonly gives: (done: Done, said: Said) => Reply | Promise<Reply>;
  /** whether a device that joined at the chassis may ask it, by what it says; without it never */
  readonly joined?: (fields: Readonly<Record<string, unknown>>) => boolean;
}
/** What a device at the chassis may always ask. */
export const atChassis = (): boolean => true;
/** A route with its check and its action. */
export interface Served {
  readonly method: Method;
  readonly may: Role;
  readonly path: string;
  readonly upload: boolean;
  readonly joined?: (fields: Readonly<Record<string, unknown>>) => boolean;
  readonly answer: (fields: unknown, at: At) => Promise<Reply>;
}
interface Declaration<T extends z.ZodObject, H extends z.ZodObject, Done> {
  readonly name: string;
  readonly says: string;
  /** as typed; none where only the page has it */
  readonly example?: string;
  /** it changes a job or the store */
  readonly records: boolean;
  readonly takes: T;
  /** said at a terminal only: files to write, how the answer is shown */
  readonly here: H;
  readonly act: (said: z.output<T>, at: At) => Promise<Done>;
  readonly routes?: readonly Route<z.output<T>, Done>[];
}
/** A command: declared once; command line, server, manual and tables derive from it. */
export interface Command<T extends z.ZodObject = z.ZodObject, H extends z.ZodObject = z.ZodObject, Done = unknown>
  extends Omit<Declaration<T, H, Done>, "act" | "routes"> {
  readonly act: (said: z.output<T>, at: At) => Promise<Done>;
  readonly served: readonly Served[];
}
export const nothing = z.object({});

/**
 * What was said, by the command's own schema.
 *
 * @throws {InputError} that names the field
 */
export function checked<T extends z.ZodType>(schema: T, said: unknown): z.output<T> {
  const r = schema.safeParse(said);
  if (r.success) return r.data;
  const [first] = r.error.issues;
  throw new InputError([{ path: first.path.map(String).join(".") || "body", code: "bad-request", read: "", expected: first.message }]);
}

/** What a field is called by whoever has no command line: what is said of it, up to its first comma, colon or bracket. */
const named = (says: string): string => says.replace(/\s*[,:(].*$/, "");
/** An error's options by their words: a page has no `--in-rated`. */
function inWords(takes: z.ZodObject, e: unknown): unknown {
  if (!(e instanceof InputError)) return e;
  const words = new Map(fieldsOf(takes).flatMap((f) => (f.usage?.startsWith("--") ? [[f.usage.replace(/ .*$/, ""), named(f.says)]] : [])));
  return new InputError(e.issues.map((i) => ({ ...i, path: words.get(i.path) ?? i.path })));
}

/** Declares a command. */
export function declare<T extends z.ZodObject, H extends z.ZodObject, Done>(c: Declaration<T, H, Done>): Command<T, H, Done> {
  const { routes = [], ...rest } = c;
  return {
    ...rest,
    served: routes.map((r) => ({
      method: r.method,
      may: r.may,
      path: r.path,
      upload: r.body === "upload",
      ...(r.joined ? { joined: r.joined } : {}),
      answer: async (fields, at) => {
        const said = checked(c.takes, fields);
        try {
          return await r.gives(await c.act(said, at), said);
        } catch (e) {
          throw inWords(c.takes, e);
        }
      },
    })),
  };
}

import type { HeededFinding } from "../../ask/findings";
import type { LeftOut } from "../../desk/left-out";
import type { TracedFault } from "../../desk/traced";
import type { Due, JobDocument, Reading } from "../../job/document";
import type { Unreadable } from "../../job/read-job";
import type { Guess } from "../../job/rollups/guesses";
import type { KnownSaid } from "../../job/rollups/known/say-known";
import type { PartLine } from "../../job/rollups/parts";
import type { ProofLine } from "../../job/rollups/proof/line";
import type { Worth } from "../../job/rollups/worth/worth";
import type { Outline } from "../../set/outline";
import type { Found } from "../../store/store";
import type { Issue } from "../../units/issue";
import { withoutTurns } from "../../units/plain-text";
import { nowShown, sent } from "./sent";

/** What the page asks its own server for, below the page's own address with its secret. Nothing else is ever asked. */
export class Refused extends Error {
  constructor(readonly issues: readonly Issue[]) {
    super(issues.map((i) => `${i.path}: ${i.read === "" ? "" : `read "${i.read}", `}expected ${i.expected}`).join("; "));
    this.name = "Refused";
  }
}
export interface JobRow {
  readonly name: string;
  readonly title: string;
  readonly updated: string;
}
export interface ReadPreview {
  readonly reading: Reading;
  readonly fit?: {
    readonly usedPoints: number;
    readonly rmsDb: number;
    readonly directionsCount: number;
    readonly unknownsCount: number;
    readonly warnings: readonly string[];
  };
}

const at = (name: string): string => `api/jobs/${encodeURIComponent(name)}`;
export async function call<T>(path: string, init?: RequestInit): Promise<T> {
  let r: Response;
  try {
    r = await sent(path, init);
  } catch (e) {
    if (e instanceof DOMException && e.name === "AbortError")
      throw new Refused([{ path: "page", code: "stopped", read: "", expected: "you to ask again: it was stopped" }]);
    throw new Refused([
      {
        path: "server",
        code: "gone",
        read: "",
        expected: "Fettle to be running: start it again with ./fettle open and go to the address it prints; what you typed is kept here",
      },
    ]);
  }
  if (!r.ok) throw await refusal(r);
  // marks that turn the direction of writing stand as they are in the job, and show as what they are here
  return JSON.parse(withoutTurns(await r.text())) as T;
}
/** Why the server refused, in its own words; a page whose server was started anew has an address that no longer opens. */
async function refusal(r: Response): Promise<Refused> {
  if (r.headers.get("content-type")?.startsWith("application/json"))
    return new Refused((await r.json()).issues ?? [{ path: "server", code: String(r.status), read: "", expected: "an answer" }]);
  const expected =
    r.status === 403 ? "the address Fettle printed when it last started: open that one; what you typed is kept here" : "an answer";
  return new Refused([{ path: "server", code: String(r.status), read: "", expected }]);
}
export const post = <T>(path: string, body: unknown, signal?: AbortSignal): Promise<T> =>
  call<T>(path, { method: "POST", body: JSON.stringify(body), ...(signal ? { signal } : {}) });
const send = <T>(path: string, fields: Readonly<Record<string, string>>, file: File | undefined, signal: AbortSignal): Promise<T> => {
  const form = new FormData();
  for (const [k, v] of Object.entries(fields)) form.set(k, v);
  if (file) form.set("file", file);
  return call<T>(path, { method: "POST", body: form, signal });
};

/** What the page has instead of the server's answer where something recorded was held, or went through with what was held before it. */
export interface WasHeld {
  readonly held: boolean;
}
/** What became of something recorded, in words; undefined where the server itself answered. */
export const heldSays = (r: object): string | undefined =>
  "held" in r ? (r.held ? "Held in this browser: it is sent as soon as Fettle answers." : "Recorded.") : undefined;
/** Whether nobody answered. */
export const isGone = (e: unknown): boolean => e instanceof Refused && e.issues.some((i) => i.code === "gone");

/** What an act would make due again, the danger in it, and what else it asks for. */
export interface Planned {
  readonly due: readonly Due[];
  readonly danger?: HeededFinding;
  readonly asks: readonly { readonly path: string; readonly asks: string; readonly stands: string }[];
  /** worked out on this page while the server is away: without amounts */
  readonly isHere?: true;
}

/** What correcting one member would do. */
export interface Amended {
  readonly due: readonly Due[];
  readonly hangs: readonly string[];
  readonly revision?: number;
}
/** What was understood of a few words on a set. */
export interface Understood {
  readonly makes: boolean;
  readonly tubes: readonly { readonly socket: string; readonly type: string; readonly does: string }[];
  readonly rows: readonly unknown[];
  readonly guessed: readonly Guess[];
  readonly unread: readonly Issue[];
  readonly leftOut: readonly string[];
}

type Written =
  | { readonly kind: "form"; readonly form: string; readonly fields: Readonly<Record<string, string>> }
  | { readonly kind: "done"; readonly step: string; readonly note: string }
  | { readonly kind: "instrument"; readonly instrument: Readonly<Record<string, string | readonly string[]>> }
  | { readonly kind: "correction"; readonly supersedes: string; readonly why: string };
/** The command that records an entry, and what is said to it. */
function recordedBy(e: Written): readonly [command: string, said: unknown] {
  switch (e.kind) {
    case "form":
      return ["fill", { card: e.form, fields: e.fields }];
    case "done":
      return ["done", { step: e.step, note: e.note }];
    case "instrument":
      return ["instrument", e.instrument];
    case "correction":
      return ["correct", { entry: e.supersedes, why: e.why }];
  }
}

export const api = {
  jobs: (search: string) => call<{ jobs: JobRow[]; total: number }>(`api/jobs?search=${encodeURIComponent(search)}`),
  search: (text: string, signal: AbortSignal) =>
    call<{ found: Found[]; more: boolean }>(`api/search?text=${encodeURIComponent(text)}`, { signal }),
  known: (set: string, part: string, signal: AbortSignal) => call<KnownSaid>(`api/known?${new URLSearchParams({ set, part })}`, { signal }),
  states: (names: readonly string[], signal: AbortSignal) => post<Record<string, string>>("api/states", { names }, signal),
  patterns: () => call<{ id: string; title: string; note: string }[]>("api/patterns"),
  create: (name: string, start: { readonly pattern: string } | { readonly outline: Outline }) =>
    post<{ name: string }>("api/jobs", { name, ...start }),
  demo: (signal: AbortSignal) => post<{ name: string }>("api/demo", {}, signal),
  copy: (from: string, name: string, setAlone: boolean, signal: AbortSignal) =>
    post<{ name: string }>(`${at(from)}/copy`, { name, setAlone }, signal),
  erase: (name: string, said: { readonly confirm: string; readonly revision?: number }) =>
    post<{ says: readonly string[] }>(`${at(name)}/erase`, said),
  load: async (name: string) => {
    const loaded = await call<{ document: JobDocument; revision: number; unreadable: readonly Unreadable[] }>(at(name));
    const last = loaded.document.entries.at(-1);
    if (last) nowShown(name, last.id);
    return loaded;
  },
  /** records what a person wrote, proved, registered or took back, each by its own command; what falls with an entry falls by itself */
  append: async (name: string, entries: readonly Written[]): Promise<{ readonly held: boolean }> => {
    let held = false;
    const taken = entries.find((e) => e.kind === "correction");
    for (const e of taken ? [taken] : entries) {
      const [command, said] = recordedBy(e);
      held = (await post<{ held?: boolean }>(`${at(name)}/${command}`, said)).held === true || held;
    }
    return { held };
  },
  values: (name: string, values: readonly { path: string; text: string }[], origin: string, why: string) =>
    post<object>(`${at(name)}/values`, { values, origin, why }),
  amend: (name: string, said: Readonly<Record<string, unknown>>, signal: AbortSignal) =>
    post<Amended | WasHeld>(`${at(name)}/amend`, said, signal),
  history: (name: string, said: Readonly<Record<string, string>>) => post<object>(`${at(name)}/history`, { said }),
  describe: (name: string, said: { readonly text: string; readonly leaveOut: boolean; readonly record: boolean }, signal: AbortSignal) =>
    post<Understood>(`api/describe/${encodeURIComponent(name)}`, said, signal),
  undo: (name: string) => post<{ kind: string }>(`${at(name)}/undo`, { why: "taken back on the page" }),
  work: (
    name: string,
    said: {
      readonly work: string;
      readonly subject: string;
      readonly note: string;
      readonly record: boolean;
      readonly now: Readonly<Record<string, string>>;
    },
    signal: AbortSignal,
  ) => post<Planned | WasHeld>(`${at(name)}/work`, said, signal),
  faults: (name: string, signal: AbortSignal) => call<{ faults: readonly TracedFault[] }>(`${at(name)}/faults`, { signal }),
  fault: (name: string, said: Readonly<Record<string, string>>) => post<object>(`${at(name)}/fault`, said),
  mend: (name: string, said: Readonly<Record<string, unknown>>, signal: AbortSignal) =>
    post<Planned | WasHeld>(`${at(name)}/mend`, said, signal),
  foundAndLeft: (name: string, signal: AbortSignal) => call<{ lines: ProofLine[] }>(`${at(name)}/found-and-left`, { signal }),
  sitting: (name: string, said: Readonly<Record<string, string>>) => post<object>(`${at(name)}/sitting`, said),
  leave: (name: string, said: Readonly<Record<string, string>>) => post<object>(`${at(name)}/leave`, said),
  wait: (name: string, said: Readonly<Record<string, string | boolean>>) => post<object>(`${at(name)}/wait`, { over: false, ...said }),
  chassis: (name: string, said: Readonly<Record<string, string>>) => post<object>(`${at(name)}/chassis`, said),
  zeroBeats: (name: string, said: Readonly<Record<string, string>>) => post<object>(`${at(name)}/zero-beats`, { record: true, ...said }),
  zeroBeat: (name: string, said: Readonly<Record<string, string>>) => post<object>(`${at(name)}/zero-beat`, said),
  takeBackBeat: (name: string, reading: string, row: number) => post<object>(`${at(name)}/take-back-beat`, { reading, row }),
  read: (name: string, fields: Readonly<Record<string, string>>, file: File, signal: AbortSignal) =>
    send<ReadPreview>(`${at(name)}/read`, fields, file, signal),
  settle: (name: string, place: string, take: string) => post<object>(`${at(name)}/settle`, { place, take }),
  reportUrl: (name: string) => `${at(name)}/report.pdf`,
  dialCardUrl: (name: string, how: Readonly<Record<string, string>>) => `${at(name)}/dial-card.pdf?${new URLSearchParams(how)}`,
  paperUrl: (name: string, path: string) => `${at(name)}/${path}`,
  dialScaleUrl: (name: string, kind: "svg" | "pdf", how: Readonly<Record<string, string>>) =>
    `${at(name)}/dial-scale.${kind}?${new URLSearchParams(how)}`,
  cardsUrl: (name: string, card: string, blank: boolean) => `${at(name)}/cards.pdf?card=${card}&blank=${blank ? "yes" : "no"}`,
  parts: (name: string, signal: AbortSignal) => call<{ lines: PartLine[]; leftOut: LeftOut[] }>(`${at(name)}/parts`, { signal }),
  proof: (name: string, signal: AbortSignal) => call<{ lines: ProofLine[] }>(`${at(name)}/proof`, { signal }),
  partsCsvUrl: (name: string) => `${at(name)}/parts.csv`,
  worth: (name: string, said: Readonly<Record<string, string>>, signal: AbortSignal) =>
    call<{ worth: Worth }>(`${at(name)}/worth?${new URLSearchParams(said)}`, { signal }),
  attach: (name: string, note: string, file: File, signal: AbortSignal) =>
    send<{ hash: string }>(`${at(name)}/attach`, { note }, file, signal),
  heard: (name: string, fields: Readonly<Record<string, string>>, file: File | undefined, signal: AbortSignal) =>
    send<{ says: readonly string[] }>(`${at(name)}/heard`, fields, file, signal),
  taken: (name: string, said: Readonly<Record<string, unknown>>, signal: AbortSignal) =>
    post<{ reading: string; gave: boolean } | WasHeld>(`${at(name)}/taken`, said, signal),
  import: (file: File, signal: AbortSignal) => send<{ name: string }>("api/import", {}, file, signal),
  fileUrl: (name: string, hash: string) => `${at(name)}/files/${hash}`,
  exportUrl: (name: string) => `${at(name)}/export.zip`,
};

/** Fetches a paper and puts it among the person's downloads; returns what the server said beside it. */
export async function download(url: string, file: string, signal: AbortSignal): Promise<Headers> {
  const r = await fetch(url, { signal });
  if (!r.ok) throw await refusal(r);
  const link = document.createElement("a");
  link.href = URL.createObjectURL(await r.blob());
  link.download = file;
  link.click();
  return r.headers;
}

/** Hands that record through servers and by the command line while those are killed: acts of many kinds, each with a word of its own by which what came of it is found again. */
import { type ChildProcess, spawn } from "node:child_process";
import type { Entry } from "../../src/job/document";
import { workKinds } from "../../src/job/ripple";
import type { Home } from "../../src/store/home";
import type { troubles } from "./kit";
import { built, environmentOf } from "./server";

type Kinds = readonly Entry["kind"][];
/** What is sent to a command of the server's, with a word that is found again, and the kinds of entries that it makes. */
type Act = readonly [command: string, kinds: Kinds, said: (word: string) => object];
const subjectOf = (work: string): string => (/^(?:cable|accessory)/.test(work) ? "fittings.qm" : "stages.if1");
const instrument = { kind: "DC volts", label: "bench meter", ranges: [], uncertainty: "2 %", lastCheck: "1960", offset: "none" };
const resistor = { part: "resistor", place: "stages.if1", out: "330 ohm", came: "330 ohm", dress: "", fault: "", now: {}, record: true };
const acts: readonly Act[] = [
  ["done", ["done"], (note) => ({ step: "01", note })],
  ["fill", ["form"], (Owner) => ({ card: "intake", fields: { Owner } })],
  ["values", ["values"], (why) => ({ values: [{ path: "plateWatts", text: "65 W" }], origin: "stated", why })],
  ["instrument", ["instrument"], (id) => ({ id, ...instrument })],
  ["fault", ["fault"], (words) => ({ does: "notice", place: "set", words })],
  ["sitting", ["sitting"], (method) => ({ initials: "T.", thermal: "cold", method })],
  ["wait", ["waiting"], (what) => ({ for: what })],
  ["chassis", ["chassis"], (how) => ({ state: "live", confirm: "live", how })],
  ["mend", ["work", "part"], (label) => ({ ...resistor, label, note: label })],
  ["amend", ["work", "described"], (why) => ({ list: "tubes", member: "V1", fields: { type: "6BA6" }, why, record: true })],
  ["leave", ["standing"], (doing) => ({ power: "unplugged", case: "closed", doing })],
  ["undo", ["correction"], (why) => ({ why })],
  ...workKinds.map((w): Act => {
    const subject = subjectOf(w.id);
    const now = Object.fromEntries((w.changes ?? []).map((c) => [c.path.replace("{subject}", subject), "same"]));
    return ["work", ["work"], (note) => ({ work: w.id, subject, note, now, record: true })];
  }),
];
/** The same at a terminal. */
const lines: readonly (readonly [kinds: Kinds, words: (word: string) => readonly string[]])[] = [
  [["done"], (w) => ["done", "K", "01", "--note", w]],
  [["form"], (w) => ["fill", "K", "intake", `Owner=${w}`]],
  [["values"], (w) => ["set", "K", "plateWatts=65 W", "--why", w]],
  [["fault"], (w) => ["fault", "K", "notice", "--words", w]],
  [["waiting"], (w) => ["wait", "K", w]],
  [["standing"], (w) => ["leave", "K", "--power", "unplugged", "--doing", w]],
  [["work"], (w) => ["work", "K", "resistor-replaced", "--at", "stages.if1", "--note", w]],
  [
    ["work", "part"],
    (w) => ["mend", "K", "resistor", "--at", "stages.if1", "--label", w, "--out", "330 ohm", "--in", "330 ohm", "--note", w],
  ],
];

/** A picture of a few bytes that no other has. */
export const picture = (word: string): Uint8Array => Uint8Array.of(0xff, 0xd8, ...new TextEncoder().encode(word));
export const isPicture = (word: string): boolean => word.endsWith("-p");
export interface Hands {
  /** what was acknowledged: its word, and the kinds of entries that it makes */
  readonly acknowledged: ReadonlyMap<string, Kinds>;
  /** how many were refused in words, as the job stood then */
  readonly refused: () => number;
  /** kills the line that is being run */
  readonly killLine: () => void;
  readonly stop: () => Promise<unknown>;
}
/** Sets two servers and the command line to work on one job, until they are stopped; a server that is gone is asked again until it is back. */
export function handsOn(home: Home, urlOf: (server: number) => string, t: ReturnType<typeof troubles>): Hands {
  const acknowledged = new Map<string, Kinds>();
  let [n, refusedCount, over] = [0, 0, false];
  let running: ChildProcess | undefined;
  const told = async (r: Response, word: string, kinds: Kinds): Promise<void> => {
    const text = await r.text();
    if (r.ok) acknowledged.set(word, kinds);
    else if (r.status >= 500) t.add(`status ${r.status}`, text);
    else refusedCount++;
  };
  const throughServer = async (which: number): Promise<void> => {
    for (let i = 0; !over; i++) {
      const word = `s${which}-${n++}`;
      const [command, kinds, said] = acts[(i + which * 7) % acts.length];
      const own = { "x-fettle": "page", "x-request": word };
      const form = new FormData();
      form.set("file", new File([picture(word) as Uint8Array<ArrayBuffer>], `${word}.jpg`));
      form.set("note", `${word}-p`);
      const heads = { ...own, "content-type": "application/json" };
      try {
        const send = (path: string, init: RequestInit) => fetch(`${urlOf(which)}api/jobs/K/${path}`, { method: "POST", ...init });
        await told(await send(command, { headers: heads, body: JSON.stringify(said(word)) }), word, kinds);
        if (i % 7 === 0)
          await told(await send("attach", { headers: { ...own, "x-request": `${word}-p` }, body: form }), `${word}-p`, ["attachment"]);
      } catch {
        // the server is gone, as it was told to be
        await new Promise((r) => setTimeout(r, 20));
      }
    }
  };
  const byLine = async (): Promise<void> => {
    for (let i = 0; !over; i++) {
      const word = `c-${n++}`;
      const [kinds, words] = lines[i % lines.length];
      await new Promise<void>((done) => {
        running = spawn(process.execPath, [built, ...words(word)], { env: { ...process.env, ...environmentOf(home) }, stdio: "ignore" });
        running.on("exit", (code) => {
          if (code === 0) acknowledged.set(word, kinds);
          else if (code !== null) refusedCount++;
          done();
        });
      });
    }
  };
  const all = [throughServer(0), throughServer(1), byLine()];
  return {
    acknowledged,
    refused: () => refusedCount,
    killLine: () => void running?.kill("SIGKILL"),
    stop: () => {
      over = true;
      return Promise.all(all);
    },
  };
}

/** A correction on which nothing rested yet makes no work, and says that it is of none. */
const isCorrectedAlone = (e: Entry): boolean => e.kind === "described" && e.partOf === undefined;
const wordIn = /"((?:s\d|c)-\d+(?:-p)?)"/g;
/** Holds a job to what its hands were told: each act there once, with all the entries that belong to it. Returns how many more acts are there. */
export function heldToHands(found: readonly Entry[], { acknowledged }: Hands, t: ReturnType<typeof troubles>): number {
  const byWord = new Map<string, Entry[]>();
  const wordOf = new Map<string, string>();
  for (const e of found) {
    if (e.who === "drawn") continue;
    const own = JSON.stringify(e).matchAll(wordIn).next().value?.[1] ?? wordOf.get(e.partOf ?? "");
    if (own === undefined) t.add("an entry of nobody's", JSON.stringify(e));
    else {
      wordOf.set(e.id, own);
      byWord.set(own, [...(byWord.get(own) ?? []), e]);
    }
  }
  for (const [word, kinds] of acknowledged) {
    const own = byWord.get(word) ?? [];
    const there = own.map((e) => e.kind);
    if (kinds.includes("described") && own.length === 1 && isCorrectedAlone(own[0])) continue;
    if (there.length === 0) t.add("lost", word);
    // what is taken back may be several entries, each by its own
    else if (kinds[0] === "correction" ? there.some((k) => k !== "correction") : there.join() !== kinds.join())
      t.add(there.length > kinds.length ? "doubled" : "torn", `${word}: ${there.join()}`);
  }
  // of what nobody acknowledged, too, all that belongs to an act is there, or none of it
  for (const [word, entries] of byWord)
    if (!acknowledged.has(word) && entries.some((e) => e.partOf !== undefined) && entries.length < 2) t.add("torn", word);
  return byWord.size - acknowledged.size;
}
/** Words of what is there, for whoever looks further. */
export const sayHands = ({ acknowledged, refused }: Hands): string => {
  const kinds = new Set([...acknowledged.values()].flat());
  return `${acknowledged.size} acknowledged acts by servers and command line, of ${kinds.size} kinds of entries (${refused()} refused in words, as the job stood)`;
};

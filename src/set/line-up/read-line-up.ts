import { bulbOf } from "../../standards/tube-bulbs";
import { bad, good, type Issue, type Read } from "../../units/issue";
import { dutiesIn, expectedDuty, type SaidTube } from "./duties";
import { guessDuties } from "./guess-duties";

export interface LineUp {
  readonly tubes: readonly SaidTube[];
  /** each line that was not understood, by itself */
  readonly unread: readonly Issue[];
}
/** Most tubes that a receiver has. Common practice, no source. */
const mostTubes = 60;

const socketWord = /^(?:V|tube )?\s?(\d{1,2})\s?([abc])?(?=[\s.:),;=/|-]|$)[.:)=]?/i;
const markedSocket = /^V\s?\d{1,2}\s?[abc]?(?=[\s.:),;=/|-]|$)/i;
/** A type as makers write it: a heater's figure, letters, a figure; or one of the early numbers; or a European one. */
const typeWord =
  /^(?:\d{1,3}[A-Z]{1,3}\d{1,2}(?:[A-Z]{0,3})?|O[A-DZ]\d|[A-Z]{2,4}\d{2,3}[A-Z]?|VR ?\d{2,3}|\d{2,4}[A-Z]?)(?:[-/](?:GTB?A?|G|\d{2}|[A-Z]{1,2}))*(?=[\s,.;:()=|&+-]|$)/i;
const classWord = /^\s+(?:class|triode|pentode|half)\b/i;

/** A type at the beginning of a text, in the letters that it was written in; undefined where none stands there. */
function typeAt(text: string, bare: boolean): string | undefined {
  const m = typeWord.exec(text)?.[0];
  if (m === undefined || markedSocket.test(text)) return undefined;
  // a number alone is a type only where the tables have it
  if (/^\d+$/.test(m) && (bulbOf(m) === undefined || !bare)) return undefined;
  // letters first, such as IF455, are a type only where the tables have it
  if (/^[A-Z]/i.test(m) && !/^OA|^OB|^OC|^OD/i.test(m) && bulbOf(m) === undefined) return undefined;
  return m + (classWord.exec(text.slice(m.length))?.[0] ?? "");
}
const lead = /^[\s,;:.|=()–—-]+/;
const skip = (text: string): string => text.replace(lead, "");
const bullet = /^\s*(?:[-*•·]\s+)/;

/** A line of a text and its number, from 1. */
export type Numbered = readonly [line: number, said: string];
/** Lines of a text that say something, each with its number. */
export const numbered = (text: string): readonly Numbered[] =>
  text
    .split(/\r\n|\n|\r/)
    .map((l, i): Numbered => [i + 1, l.replace(bullet, "").trim()])
    .filter(([, l]) => l !== "" && !l.startsWith("#"));

/** The types of a text that holds nothing else, such as `6SK7 6SA7 6SK7`; the text itself where it says more. */
function typesIn(text: string): readonly string[] {
  const words = text.split(/[\s,;]+/);
  return words.length > 1 && words.every((w) => typeAt(w, true) === w && bulbOf(w) !== undefined) ? words : [text];
}
/** A semicolon parts tubes where several stand in the line, else cells. */
const atSemicolons = (line: string): readonly string[] => {
  const types = typesIn(line);
  if (types.length > 1) return types;
  const parts = line.split(";");
  return parts.filter((p) => hasType(p.trim())).length > 1 ? parts : [parts.join(", ")];
};
/** Cuts lines into what may be one tube each: at semicolons, and at a comma where another tube begins. */
function pieces(lines: readonly Numbered[]): readonly Numbered[] {
  const out: [number, string][] = [];
  for (const [i, raw] of lines.flatMap(([n, l]) => atSemicolons(l.replace(/[\t|]+/g, ", ")).map((p) => [n, p] as const))) {
    const line = raw.trim();
    if (line === "") continue;
    let piece = "";
    for (const own of line.split(/,/).flatMap((part) => typesIn(part.trim()))) {
      const rest = socketWord.test(own) ? skip(own.replace(socketWord, "")) : own;
      const begins =
        (markedSocket.test(own) && piece !== "" && !isSocketsOnly(piece)) ||
        (hasType(piece) && (typeAt(own, false) !== undefined || (socketWord.test(own) && typeAt(rest, true) !== undefined)));
      if (begins) {
        out.push([i, piece]);
        piece = own;
      } else piece = piece === "" ? own : `${piece}, ${own}`;
    }
    if (piece !== "") out.push([i, piece]);
  }
  return out;
}
const isSocketsOnly = (piece: string): boolean => piece.split(/,/).every((p) => new RegExp(`${markedSocket.source}$`, "i").test(p.trim()));
const hasType = (piece: string): boolean => splitPiece(piece).type !== undefined;

/** Sockets, type and the rest of one tube's text, whichever of the two comes first. */
function splitPiece(piece: string): { readonly sockets: readonly string[]; readonly type: string | undefined; readonly rest: string } {
  const sockets: string[] = [];
  let rest = skip(piece);
  const take = (): void => {
    for (let m = socketWord.exec(rest); m !== null; m = socketWord.exec(rest)) {
      // a number that is itself the type, such as 80, is no socket
      const after = skip(rest.slice(m[0].length));
      const own = typeAt(after, true) !== undefined || socketWord.test(after.replace(/^(?:and|&|\/|to)\s*/i, ""));
      if (!markedSocket.test(rest) && !own) return;
      sockets.push(`V${Number(m[1])}${(m[2] ?? "").toLowerCase()}`);
      rest = skip(after.replace(/^(?:and|&|\/)\s*/i, ""));
      if (sockets.length >= 4 || typeAt(rest, true) !== undefined) return;
    }
  };
  take();
  const times = /^(?:two|2) ?(?:x|×|of)? (?=\d)|^2 ?[x×] ?(?=\d)/i.exec(rest)?.[0] ?? "";
  rest = rest.slice(times.length);
  let type = typeAt(rest, true);
  if (type !== undefined) rest = rest.slice(type.length);
  else {
    // the type after the words: "RF amp 6BA6"
    const at = [...rest.matchAll(/(?<=[\s,(])(?=[\dA-Z])/gi)].map((m) => m.index).find((k) => typeAt(rest.slice(k), false) !== undefined);
    if (at !== undefined) {
      type = typeAt(rest.slice(at), false);
      rest = `${rest.slice(0, at)} ${rest.slice(at + (type?.length ?? 0))}`;
    }
  }
  if (sockets.length === 0) {
    const marked = /(?<=[\s,(])V\s?(\d{1,2})\s?([abc])?(?=[\s,)]|$)/i.exec(rest);
    if (marked) {
      sockets.push(`V${Number(marked[1])}${(marked[2] ?? "").toLowerCase()}`);
      rest = rest.replace(marked[0], " ");
    }
  }
  if (times !== "" && sockets.length < 2) sockets.push(...Array.from({ length: 2 - sockets.length }, () => ""));
  return { sockets, type: type?.toUpperCase().replace(/\s+(CLASS|TRIODE|PENTODE|HALF)$/, (w) => w.toLowerCase()), rest: skip(rest) };
}

/** Heads of a table, which are no tube. */
const heading = /^(?:socket|tube|ref|no|valve|position|designation|symbol)\b[^0-9]*$/i;
/** Words beside a type that tell nothing of what the tube does. */
const fillers = /\b(?:tube|amp(?:lifier)?|valve|metal|glass)\b\.?/gi;

/** What one piece says of a tube, or what is wrong with it. */
function tubesOf([line, said]: Numbered, known: readonly SaidTube[]): Read<readonly SaidTube[]> {
  const path = `line ${line}`;
  const { sockets, type, rest } = splitPiece(said);
  if (type === undefined) return bad(path, "not-a-tube", said, "a tube's type and what it does, such as V2 6BE6 mixer");
  const duties = dutiesIn(rest);
  if (duties.length === 0 && /[a-z]{3}/i.test(rest.replace(fillers, ""))) return bad(path, "no-such-duty", rest, expectedDuty(rest));
  const out: SaidTube[] = [];
  for (const socket of sockets.length > 0 ? sockets : [""]) {
    if (socket !== "" && [...known, ...out].some((t) => clash(t.socket, socket)))
      return bad(path, "same-socket", socket, "each socket once, or V5a and V5b for the halves of a double tube");
    out.push({ socket: socket || undefined, type, duties, guessed: duties.length === 0, line });
  }
  return good(out);
}
/**
 * A line-up of tubes from whatever a person wrote or pasted: one a line, or with commas or semicolons between, cells between tabs, commas or bars, sockets
 * or none, the type before the duty or behind it. A line that is not understood costs no other. What a tube does and nobody said is guessed.
 *
 * @param lines with their numbers
 * @returns the tubes in the order in which they stand, and each line that was not understood
 * @source house format
 */
export function readLineUp(lines: readonly Numbered[]): LineUp {
  const tubes: SaidTube[] = [];
  const unread: Issue[] = [];
  for (const piece of pieces(lines)) {
    if (heading.test(piece[1])) continue;
    const read = tubesOf(piece, tubes);
    if (!read.ok) unread.push(...read.issues);
    else if (tubes.length + read.value.length > mostTubes)
      unread.push(...bad(`line ${piece[0]}`, "too-many", piece[1], `at most ${mostTubes} tubes`).issues);
    else tubes.push(...read.value);
  }
  const guessed = guessDuties(tubes);
  for (const t of guessed)
    if (t.duties.length === 0)
      unread.push(...bad(`line ${t.line}`, "no-duty", t.type, `${expectedDuty("")}: its type alone does not tell`).issues);
  return { tubes: guessed.filter((t) => t.duties.length > 0), unread };
}
/** Whether two sockets share a bulb otherwise than as its two halves. */
function clash(a: string | undefined, b: string): boolean {
  const [x, y] = [a, b].map((s) => /^V(\d+)([abc]?)$/.exec(s ?? ""));
  return x !== null && y !== null && x?.[1] === y?.[1] && (x?.[2] === y?.[2] || x?.[2] === "" || y?.[2] === "");
}

import { type ClearedOut, type KeptKind, keptKinds, kindsKept, type Listed, type PastTime } from "../store/kept/kept";
import { type Span, saySpan } from "../store/kept/spans";
import { dayInWords } from "../units/day";
import { counted } from "../units/sentence";

const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)} MB`;

/** How long each kind is kept: its name, what it is, for how long. */
export const sayKept = (spans: Readonly<Partial<Record<KeptKind, Span>>>): readonly (readonly [KeptKind, string, string])[] =>
  kindsKept.map((k) => {
    const span = spans[k];
    return [k, keptKinds[k], span ? saySpan(span) : "for ever"];
  });

/** In a line: something that is past its time, how much it is, since when nothing was done with it. */
export function sayPast({ kind, about, since, entriesCount, filesCount, bytesCount }: PastTime): string {
  const files = `${counted(filesCount, "file")}, ${megabytes(bytesCount)}`;
  if (kind === "jobs")
    return `"${about}": the whole job, nothing recorded since ${dayInWords(since)}; ${counted(entriesCount, "entry", "entries")}, ${files}`;
  if (kind === "recordings") return `"${about}": its recordings, ${files}; nothing recorded since ${dayInWords(since)}`;
  return `${about}: ${entriesCount}, the oldest of ${dayInWords(since)}`;
}

/** In sentences: what is past its time; nothing has gone yet. */
export const sayListed = ({ past, code }: Listed): readonly string[] =>
  past.length === 0
    ? ["Nothing is past its time."]
    : [
        "Past its time:",
        ...past.map((p) => `  ${sayPast(p)}`),
        `Nothing has been removed. To remove all of this for good: fettle clear-out --confirm ${code}`,
        "A job worth keeping is exported first (fettle export), or its kind kept for longer (fettle keep-for).",
      ];

/** In sentences: what was removed, and where something of it may still be. */
export const sayClearedOut = ({ past, bytesCount, tracesLeft }: ClearedOut): readonly string[] => [
  "Removed for good:",
  ...past.map((p) => `  ${sayPast(p)}`),
  ...(bytesCount > 0 ? [`${megabytes(bytesCount)} of files are out of the store; what another job points at stays.`] : []),
  ...(tracesLeft ? ["Traces may remain in the store's own files until every page and command using the store is closed."] : []),
  "The trail tells of it (fettle audit). Earlier backups and exports still hold it: delete those yourself.",
];

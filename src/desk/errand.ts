import type { Answer, Ask } from "../ask/answered";
import type { JobDocument } from "../job/document";
import type { Known } from "../job/known-answers";
import type { JobAsRead } from "../job/read-job";
import type { ExchangedLine } from "../job/rollups/owner/work";
import type { PartLine } from "../job/rollups/parts";
import type { ProofLine } from "../job/rollups/proof/line";
import type { StoredFile } from "../store/store";
import type { LeftOut } from "./left-out";
import type { ReadIn, ReadingAsk } from "./read-in/asking";
import type { TracedFault } from "./traced";
import type { Planned, WorkSaid } from "./work";

/** Who an entry is by, and when it was made. */
interface Signed {
  readonly at: string;
  readonly who: string;
}
interface OfJob {
  readonly document: JobDocument;
}
/** A question, and the subject that it is asked about; the one that the thread points at where none is named. */
interface AskedAbout {
  readonly sheet: string;
  readonly at?: string | undefined;
}
interface NamedBytes {
  readonly name: string;
  readonly bytes: Uint8Array;
}
/** What may take long or much, by name: what it is given and what it gives, plain data both, so that it can be done on another thread. */
export interface ErrandTypes {
  /** reads a file into a job, recording nothing */
  readonly read: readonly [OfJob & { readonly file: NamedBytes; readonly how: ReadingAsk; readonly signed: Signed }, ReadIn];
  /** a job out of its zip, and into one */
  readonly unpack: readonly [
    NamedBytes & { readonly broughtIn: { readonly at: string; readonly by: string } },
    JobAsRead & { readonly files: readonly StoredFile[] },
  ];
  readonly pack: readonly [JobAsRead & { readonly files: readonly StoredFile[] }, Uint8Array];
  readonly sheet: readonly [
    {
      readonly document?: JobDocument | undefined;
      readonly sheet: string;
      readonly at?: string | undefined;
      readonly ask: Omit<Ask, "progress">;
    },
    Answer,
  ];
  readonly plan: readonly [OfJob & { readonly said: WorkSaid; readonly signed: Signed }, Planned];
  readonly parts: readonly [
    OfJob,
    { readonly lines: readonly PartLine[]; readonly leftOut: readonly LeftOut[]; readonly used: readonly ExchangedLine[] },
  ];
  readonly proof: readonly [OfJob, readonly ProofLine[]];
  readonly faults: readonly [OfJob, readonly TracedFault[]];
  readonly report: readonly [OfJob, Uint8Array];
  /** `known` was worked out elsewhere already, of the same document */
  readonly record: readonly [OfJob & { readonly known?: readonly Known[] }, Uint8Array];
  /** answers of a job's report, and of its performance record, but those of the questions that somebody else works out */
  readonly answers: readonly [OfJob & { readonly but: readonly AskedAbout[] }, readonly Known[]];
  readonly cards: readonly [OfJob & { readonly card?: string | undefined; readonly blank: boolean }, Uint8Array];
  readonly dialCard: readonly [OfJob & { readonly band: string; readonly how: Readonly<Record<string, string>> }, Uint8Array];
  readonly converterCard: readonly [OfJob, Uint8Array];
  readonly dialScale: readonly [
    OfJob & {
      readonly band: string;
      readonly kind: "svg" | "pdf";
      readonly typed: Readonly<Record<string, string>>;
      readonly how: Readonly<Record<string, string>>;
    },
    string | Uint8Array,
  ];
}
export type ErrandName = keyof ErrandTypes;
export type Given<N extends ErrandName> = ErrandTypes[N][0];
export type Gives<N extends ErrandName> = ErrandTypes[N][1];
export interface Accompanied {
  /** told how far it has come */
  readonly progress?: (said: string) => void;
  /** gives it up */
  readonly signal?: AbortSignal;
}
/** Who does them: this thread, or others beside it. Bad input comes back as an InputError. */
export interface Errands {
  readonly run: <N extends ErrandName>(name: N, given: Given<N>, beside?: Accompanied) => Promise<Gives<N>>;
}

/** Name, version and words of the job's format, apart from the definition that reads it: the page knows them without it. */

import { dayInWords } from "../units/day";
export const formatName = "fettle-job";
export const formatVersion = 5;
export const readingStates = ["as-found", "as-left"] as const;
export const readingKinds = ["if-sweep", "sweep", "resonance", "recording", "table", "dial"] as const;
export const thermalStates = ["cold", "warming", "warm"] as const;

/** Acts in the life of a fault, in the order in which they usually come. */
export const faultActs = ["notice", "trace", "cause", "mend", "prove", "close", "leave", "open-again"] as const;
/** Lists of the description whose members a person may add, change or take out. */
export const describedLists = ["stages", "tubes", "bands", "cans", "nodes", "taps", "fittings"] as const;
export const powerStates = ["unplugged", "off", "on"] as const;
export const caseStates = ["closed", "open"] as const;

/** Whether an entry or a whole job was brought in from elsewhere, so that it proves nothing here. */
export const isFromElsewhere = (x: { readonly broughtIn?: unknown }): boolean => x.broughtIn !== undefined;

/** In a sentence: when and by whom a job was brought in, and what that means. */
export const sayBroughtIn = (b: { readonly at: string; readonly by: string; readonly copyOf?: string | undefined }): string =>
  b.copyOf === undefined
    ? `Brought in from elsewhere on ${dayInWords(b.at)} by ${b.by}: what it says about safety proves nothing here.`
    : `Copied from the job "${b.copyOf}" on ${dayInWords(b.at)} by ${b.by}: a copy is another set or another claim, so what it says about safety proves nothing here; chassis and safety record must be proved again.`;

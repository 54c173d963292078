import type { Line } from "./line";

/** Every command of the command line, by what a person is about, in the order of its help; each is loaded only when it is asked for. */
const groups: Readonly<Record<string, Readonly<Record<string, () => Promise<Line>>>>> = {
  "Begin here": {
    demo: async () => (await import("./demo")).demoLine,
    "before-opening": async () => (await import("./safety")).beforeOpeningLine,
    describe: async () => (await import("./describe")).describeLine,
    new: async () => (await import("./jobs")).newLine,
    patterns: async () => (await import("./catalogue")).patternsLine,
    open: async () => (await import("./open")).openLine,
    jobs: async () => (await import("./jobs")).jobsLine,
    search: async () => (await import("./search")).searchLine,
    known: async () => (await import("./known")).knownLine,
    where: async () => (await import("./thread")).whereLine,
    next: async () => (await import("./ask")).nextLine,
    worth: async () => (await import("./worth")).worthLine,
  },
  "The set": {
    show: async () => (await import("./jobs")).showLine,
    history: async () => (await import("./history")).historyLine,
    amend: async () => (await import("./describe")).amendLine,
    set: async () => (await import("./entries")).setLine,
    chassis: async () => (await import("./safety")).chassisLine,
    fill: async () => (await import("./fill")).fillLine,
    instrument: async () => (await import("./entries")).instrumentLine,
  },
  "At the bench": {
    sitting: async () => (await import("./thread")).sittingLine,
    read: async () => (await import("./entries")).readLine,
    "zero-beat": async () => (await import("./entries")).zeroBeatLine,
    "zero-beats": async () => (await import("./entries")).zeroBeatsLine,
    "take-back": async () => (await import("./entries")).takeBackLine,
    work: async () => (await import("./entries")).workLine,
    done: async () => (await import("./proofs")).doneLine,
    settle: async () => (await import("./settle")).settleLine,
    wait: async () => (await import("./thread")).waitLine,
    leave: async () => (await import("./thread")).leaveLine,
  },
  "By ear": {
    peak: async () => (await import("./ear-peak")).peakLine,
    note: async () => (await import("./ear")).noteLine,
    noise: async () => (await import("./ear-noise")).noiseLine,
    crackle: async () => (await import("./ear-crackle")).crackleLine,
    hum: async () => (await import("./ear-hum")).humLine,
    response: async () => (await import("./ear-response")).responseLine,
    "test-noise": async () => (await import("./ear-response")).testNoiseLine,
    rehearse: async () => (await import("./rehearse")).rehearseLine,
  },
  "By instruments": {
    sweep: async () => (await import("./instruments")).sweepLine,
    "from-instrument": async () => (await import("./instruments")).fromInstrumentLine,
    "instrument-commands": async () => (await import("./instruments")).instrumentCommandsLine,
    "simulated-bench": async () => (await import("./instruments")).simulatedBenchLine,
  },
  "What it means": {
    sheets: async () => (await import("./catalogue")).sheetsLine,
    sheet: async () => (await import("./ask")).sheetLine,
  },
  "Faults and parts": {
    faults: async () => (await import("./thread")).faultsLine,
    fault: async () => (await import("./thread")).faultLine,
    mend: async () => (await import("./thread")).mendLine,
    "part-kinds": async () => (await import("./thread")).partKindsLine,
    "found-and-left": async () => (await import("./thread")).foundAndLeftLine,
    parts: async () => (await import("./papers")).partsLine,
  },
  Papers: {
    report: async () => (await import("./papers")).reportLine,
    "technical-record": async () => (await import("./papers")).technicalRecordLine,
    proof: async () => (await import("./papers")).proofLine,
    cards: async () => (await import("./papers")).cardsLine,
    "dial-card": async () => (await import("./papers")).dialCardLine,
    "dial-scale": async () => (await import("./papers")).dialScaleLine,
    "converter-card": async () => (await import("./papers")).converterCardLine,
  },
  "Look it up": {
    tubes: async () => (await import("./catalogue")).tubesLine,
    mark: async () => (await import("./catalogue")).markLine,
    cables: async () => (await import("./catalogue")).cablesLine,
    works: async () => (await import("./catalogue")).worksLine,
    steps: async () => (await import("./catalogue")).stepsLine,
    schema: async () => (await import("./catalogue")).schemaLine,
  },
  "A shop on the network": {
    serve: async () => (await import("./serve")).serveLine,
    accounts: async () => (await import("./shop")).accountsLine,
    account: async () => (await import("./shop")).accountLine,
    "owner-link": async () => (await import("./shop")).ownerLinkLine,
    "owner-links": async () => (await import("./shop")).ownerLinksLine,
    audit: async () => (await import("./shop")).auditLine,
    "keep-for": async () => (await import("./keep-for")).keepForLine,
    "clear-out": async () => (await import("./keep-for")).clearOutLine,
  },
  "Keep the records": {
    correct: async () => (await import("./proofs")).correctLine,
    undo: async () => (await import("./proofs")).undoLine,
    copy: async () => (await import("./jobs")).copyLine,
    export: async () => (await import("./jobs")).exportLine,
    import: async () => (await import("./jobs")).importLine,
    erase: async () => (await import("./keeping")).eraseLine,
    backup: async () => (await import("./keeping")).backupLine,
    restore: async () => (await import("./keeping")).restoreLine,
    "set-up-store": async () => (await import("./keeping")).setUpStoreLine,
    "upgrade-store": async () => (await import("./keeping")).upgradeStoreLine,
    "check-store": async () => (await import("./keeping")).checkStoreLine,
    completion: async () => (await import("./completion")).completionLine,
  },
};
/** The same by their names alone. */
export const lines: Readonly<Record<string, () => Promise<Line>>> = Object.assign({}, ...Object.values(groups));
/** Every command, loaded, under the heading that it stands under in help. */
export const groupedLines = (): Promise<(readonly [string, readonly Line[]])[]> =>
  Promise.all(
    Object.entries(groups).map(
      async ([heading, group]) => [heading, await Promise.all(Object.values(group).map((load) => load()))] as const,
    ),
  );
/** Every command, loaded, in that order. */
export const everyLine = (): Promise<Line[]> => Promise.all(Object.values(lines).map((load) => load()));
/** Commands that have one question worked out, and nothing else to do meanwhile. */
export const worksAlone: readonly string[] = ["sheet"];
/** Commands that have something worked out beside this thread: it may be started first. */
export const worksBeside: readonly string[] = [
  "rehearse",
  "read",
  "work",
  "faults",
  "report",
  "technical-record",
  "parts",
  "proof",
  "cards",
  "dial-card",
  "converter-card",
  "dial-scale",
];

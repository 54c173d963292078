import { type Issue, sayIssue } from "../units/issue";
import { stepById } from "./steps";

/** A refusal as lines to read, each with the act that gives what is missing, in the way of the face that says it. */
export interface RefusalLine {
  readonly says: string;
  /** a command of the command line that gives it, if there is one */
  readonly command?: string;
}
const step = (id: string): string => `step ${id} (${stepById(id)?.title ?? "unknown"})`;
const ofCard = /^([\w-]+) card, (.+)$/;
/** The chassis itself, as a step's record has it; the act that proves it names its own fields. */
const ofChassis = (i: Issue): boolean => i.code === "chassis-not-proved" && i.needs === "chassis";

/** Issues of one code at the fields of the cards: card by card, in order, each field once. */
function byCard(issues: readonly Issue[], code: string): readonly (readonly [card: string, fields: readonly string[]])[] {
  const out = new Map<string, string[]>();
  for (const i of issues) {
    const [, card, field] = (i.code === code && ofCard.exec(i.path)) || [];
    if (card && field) out.set(card, [...new Set([...(out.get(card) ?? []), field])]);
  }
  return [...out];
}
const fill = (card: string): string => `fettle fill JOB ${card} "FIELD=VALUE"`;

/** What an act on a fault waits for, in the words of the bench. */
const ofFault: Readonly<Record<string, string>> = {
  "no-reason": "Write the reason why it is left.",
  "no-cause": "Write what it was, such as cathode resistor high.",
  "not-proved": "Prove it first: then it can be closed.",
  "not-mended": "It can be proved once it was mended, or its cause was found.",
};
function faultLines(issues: readonly Issue[]): RefusalLine[] {
  const own = issues.filter((i) => i.path === "fault");
  const unread = own.flatMap((i) => (i.code === "not-read" ? [i.needs ?? i.expected] : []));
  const still = own
    .filter((i) => i.code === "still-off")
    .map((i) => ({ says: `${i.read}: the fault is still there, or there is another.` }));
  const said = own.flatMap((i) =>
    ofFault[i.code] === undefined
      ? []
      : [{ says: ofFault[i.code], ...(i.code === "not-proved" ? { command: "fettle fault JOB prove" } : {}) }],
  );
  return [...still, ...(unread.length > 0 ? [{ says: `Not read since it was mended: ${unread.join("; ")}.` }] : []), ...said];
}

/**
 * A refusal in few lines: what must come first, what is still blank card by card, what is older than work that touched it, and what fails, nothing twice.
 *
 * @param issues as the gate or a form gave them
 * @returns lines in that order; what fails is one line each
 * @source house frame
 */
export function refusalLines(issues: readonly Issue[]): RefusalLine[] {
  const fault = faultLines(issues);
  if (fault.length > 0 && issues.every((i) => i.path === "fault")) return fault;
  const of = (code: string): Issue[] => issues.filter((i) => i.code === code);
  const first = of("not-before").flatMap((i) => (i.needs ? [i.needs] : []));
  const due = of("due-again").flatMap((i) => (i.needs ? [i.needs] : []));
  const chassis = issues.find(ofChassis);
  const unread = of("not-read").filter((i) => i.needs !== undefined);
  const grouped = new Set(["not-before", "due-again", "chassis-not-proved", "not-measured", "older-than-work", "not-read"]);
  const rest = issues.filter((i) => !(grouped.has(i.code) && (i.needs !== undefined || ofCard.test(i.path) || ofChassis(i))));
  return [
    ...(first.length > 0 ? [{ says: `First prove ${first.map(step).join(", then ")}.` }] : []),
    ...(due.length > 0
      ? [
          {
            says: `Made due again by work: ${due.map(step).join(", ")}. Do ${due.length > 1 ? "them" : "it"} first, or write "What was not done" on the handover card.`,
            command: fill("handover"),
          },
        ]
      : []),
    ...(chassis
      ? [
          {
            says: `The chassis is ${chassis.read === "unstated" ? "not proved yet" : chassis.read}: prove it isolated, or live and dead behind an isolation transformer, by what you measure.`,
            command: "fettle chassis JOB STATE",
          },
        ]
      : []),
    ...(unread.length > 0
      ? [{ says: `Not read yet: ${unread.map((i) => i.expected).join("; ")}.`, command: `fettle set JOB "${unread[0].path}=VALUE"` }]
      : []),
    ...byCard(issues, "not-measured").map(([card, fields]) => ({
      says: `Still blank on the ${card} card: ${fields.join("; ")}.`,
      command: fill(card),
    })),
    ...byCard(issues, "older-than-work").map(([card, fields]) => ({
      says: `Older than the work that touched ${fields.length > 1 ? "them" : "it"}, on the ${card} card: ${fields.join("; ")}. Measure and write ${fields.length > 1 ? "them" : "it"} again.`,
      command: fill(card),
    })),
    ...[...new Set(rest.map(sayIssue))].map((says) => ({ says })),
  ];
}

import { setFigures } from "../../ask/care";
import { nextSteps } from "../../job/next";
import { benchOf, type JobView, subjectLabel } from "../../job/view";
import { besides, type Caution, isOpen, openDead, openLive, stateWord } from "../../standards/cautions";
import { answerContent } from "./record-answers";
import { type RecordParts, technicalRecord } from "./technical-record";

/** One text in the order in which it is read: a heading begins anew. */
export interface Said {
  readonly text: string;
  readonly heading: boolean;
  /** a step at the desk or the panel: the hands have left the open set */
  readonly closes?: boolean;
}
/** Every text of a document definition, in reading order. */
export function saidIn(node: unknown): Said[] {
  if (typeof node === "string") return [{ text: node, heading: false }];
  if (Array.isArray(node)) return node.flatMap(saidIn);
  if (node === null || typeof node !== "object") return [];
  const n = node as Record<string, unknown>;
  if (n.style === "h2")
    return [
      {
        text: saidIn(n.text)
          .map((t) => t.text)
          .join(""),
        heading: true,
      },
    ];
  return ["text", "stack", "columns", "ul", "table", "body"].flatMap((k) => saidIn(n[k]));
}

/** The frame's own texts for this set: dead and live in full, both in short, then what an open step may meet besides. */
export function cautionsOf(view: JobView, signed = false): readonly Caution[] {
  const figures = { ...setFigures(benchOf(view, "")), signed };
  return [openDead(figures), openLive(figures), openDead(figures, true), openLive(figures, true), ...besides(signed)];
}
type Forms = readonly (readonly Caution[])[];
const kindsOf = (forms: Forms) =>
  forms.flatMap(([dead, live, deadAgain, liveAgain]) => [
    { mark: `[${stateWord["open-dead"]}]`, full: dead.says, short: deadAgain.says },
    { mark: `[${stateWord["open-live"]}]`, full: live.says, short: liveAgain.says },
  ]);
/** Open steps without the caution of their state since it turned so, or with the short one where nothing was said in full. */
export function unheeded(said: readonly Said[], ...forms: Forms): string[] {
  const kinds = kindsOf(forms);
  let now: string | undefined;
  let full = new Set<string>();
  return said.flatMap(({ text, heading, closes }) => {
    if (heading) [now, full] = [undefined, new Set()];
    if (closes) now = undefined;
    const missing = kinds.some((k) => text.includes(k.mark) && now !== k.mark) ? [text] : [];
    for (const k of kinds) {
      if (text.includes(k.full)) full.add(k.mark);
      if (text.includes(k.full) || (text.includes(k.short) && full.has(k.mark))) now = k.mark;
    }
    return missing;
  });
}
/** Cautions that a section says once more: in full, of a hazard, or in short while the state is that already. */
export function doubled(said: readonly Said[], ...forms: Forms): string[] {
  const kinds = kindsOf(forms);
  const once = new Set(forms.flatMap(([dead, live, , , ...others]) => [dead, live, ...others].map((c) => c.says)));
  let now: string | undefined;
  let section = "";
  let seen = new Set<string>();
  return said.flatMap(({ text, heading, closes }) => {
    if (heading) [now, section, seen] = [undefined, text, new Set()];
    if (closes) now = undefined;
    const out: string[] = [];
    for (const c of once) {
      const times = text.split(c).length - 1;
      if (times > 1 || (times === 1 && seen.has(c))) out.push(`${section}: ${c}`);
      if (times > 0) seen.add(c);
    }
    const short = kinds.find((k) => text.includes(k.short));
    if (short && now === short.mark) out.push(`${section}: ${short.short}`);
    now = kinds.find((k) => text.includes(k.full) || text.includes(k.short))?.mark ?? now;
    return out;
  });
}
/** Steps of answers whose own hazard was not said before them in their section. */
export const unsaidHazards = (view: JobView, answers: RecordParts["answers"]): string[] =>
  answers.flatMap(({ sheet, at, answer }) => {
    const texts = saidIn(answerContent(sheet, answer, subjectLabel(view.set, at ?? ""), "", answer)).map((s) => s.text);
    return answer.findings.flatMap((f) => {
      if (f.do === undefined || !isOpen(f.state)) return [];
      const before = texts.slice(
        0,
        texts.findIndex((t) => t.includes(f.do ?? "")),
      );
      return besides()
        .filter((c) => f.hazards.some((h) => h === c.id) && !before.some((t) => t.includes(c.says)))
        .map((c) => `${sheet.title}, ${f.do}: ${c.id}`);
    });
  });
/** All that is wrong with the cautions of a technical record, section by section; nothing where each stands once, where its step needs it. */
export function cautionsAmiss(view: JobView, parts: Omit<RecordParts, "view">): string[] {
  const closed = new Set([
    ...parts.answers.flatMap(({ answer }) => answer.findings.flatMap((f) => (f.do === undefined || isOpen(f.state) ? [] : [f.do]))),
    ...nextSteps(view).flatMap((i) => (isOpen(i.wants) ? [] : [i.task])),
  ]);
  const said = saidIn(technicalRecord({ view, ...parts }).content).map((s) => ({ ...s, closes: closed.has(s.text) }));
  // its list of what is next says in short what was signed
  const forms = [cautionsOf(view), cautionsOf(view, true)];
  return [
    ...unheeded(said, ...forms).map((t) => `lacks: ${t}`),
    ...doubled(said, ...forms).map((t) => `twice: ${t}`),
    ...unsaidHazards(view, parts.answers).map((t) => `hazard not said: ${t}`),
  ];
}

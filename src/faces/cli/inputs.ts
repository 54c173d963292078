import type { Answer } from "../../ask/answered";
import type { AnySheet } from "../../ask/contract";
import { keptPath } from "../../ask/resolve";
import { sayRows } from "../../set/columns";
import { isOpen, openDead, openLive, readingState, type State, stateWord } from "../../standards/cautions";
import { printQuantity } from "../../units/print";
import type { Origin } from "../../units/quantity";
import { type Page, wrap } from "./render";

/** One input as it is listed: what it is by name, what it is now, where that comes from, and the command that records it. */
interface Listed {
  readonly name: string;
  readonly value: string;
  readonly origin: string;
  readonly says: string;
  /** what `fettle set` takes: path, value and origin; none where it is proved by an act, or only tried */
  readonly record?: string;
  /** whether an act proves it */
  readonly proved?: true;
}

/** A word as the shell takes it. */
export const quoted = (text: string): string => (/^[\w.=:+-]+$/.test(text) ? text : `"${text.replace(/(["\\$`])/g, "\\$1")}"`);
/** The origin as `fettle set` takes it: what was fitted or tried is recorded as what it is to a person who types it; stated is what is taken where none is said. */
const originSaid = (path: string, origin: Origin | ""): string => {
  // the rated line is read off the type plate, and stands as stated
  const said =
    path === "line.voltage" || origin === "" || origin === "tried"
      ? "stated"
      : origin === "assumed"
        ? "assumed"
        : origin === "stated"
          ? "stated"
          : "measured";
  return said === "stated" ? "" : ` --origin ${said}`;
};

function listed(a: Answer, sheet: AnySheet): Listed[] {
  const stateFor = (path: string, how: string): State => readingState(how, sheet.inputs[path]?.state);
  const howTo = ({ path, howMeasured }: { readonly path: string; readonly howMeasured: string }): string => {
    const state = stateFor(path, howMeasured);
    return `${isOpen(state) ? `[${stateWord[state]}] ` : ""}${howMeasured}.`;
  };
  const recorded = (name: string, value: string, origin: Origin | "" = ""): Pick<Listed, "record" | "proved"> => {
    const input = sheet.inputs[name];
    // what makes a set safe is proved by an act, and no word at a path
    if (input?.kind === "choice" && input.recordedOnly !== undefined) return { proved: true };
    const path = keptPath(sheet, a.at, name);
    return path === undefined ? {} : { record: `${path}=${quoted(value)}${originSaid(path, origin)}` };
  };
  return [
    ...a.choices.map((c) => ({
      name: c.path,
      value: c.value,
      origin: c.origin,
      says: `${c.meaning}. One of ${c.options.join(", ")}.`,
      ...recorded(c.path, c.value),
    })),
    ...a.quantities.map((q) => {
      const value = printQuantity(q.quantity.value, q.quantity.spread, q.dimension);
      const says = `${q.meaning}. ${howTo(q)} (${q.quantity.source})`;
      return { name: q.path, value, origin: q.quantity.origin, says, ...recorded(q.path, value, q.quantity.origin) };
    }),
    ...a.absent.map((m) => ({
      name: m.path,
      value: "not read",
      origin: "",
      says: `${m.meaning}. ${howTo(m)}`,
      ...recorded(m.path, "VALUE", sheet.inputs[m.path]?.kind === "quantity" ? "measured" : ""),
    })),
    ...a.rows.map((t) => ({
      name: t.path,
      value: `${t.rows.length} rows`,
      origin: t.origin,
      says: `${t.meaning}. Columns: ${Object.keys(t.columns).join(", ")}; rows between semicolons. ${t.howMeasured}. (${t.source})`,
      ...recorded(t.path, sayRows(t.rows.slice(0, 2), t.columns) || "ROW; ROW"),
    })),
    ...a.missing.map((m) => ({
      name: m.path,
      value: "missing",
      origin: "",
      says: `${m.meaning}. ${m.howMeasured}`,
      ...recorded(m.path, "VALUE", sheet.inputs[m.path]?.kind === "quantity" ? "measured" : ""),
    })),
  ];
}

/**
 * Inputs of a sheet: name, value, origin, meaning, how it is measured, what that wants of the set, and the command that records it.
 *
 * @param a an answer of the sheet
 * @param sheet the sheet
 * @param job name of the job, for the commands
 * @param page width and bold of the terminal
 */
export function inputsText(a: Answer, sheet: AnySheet, job: string | undefined, page: Page): string {
  const all = listed(a, sheet);
  const states = [...a.quantities, ...a.absent].map((q) => readingState(q.howMeasured, sheet.inputs[q.path]?.state));
  const care = [...(states.includes("open-dead") ? [openDead({})] : []), ...(states.includes("open-live") ? [openLive({})] : [])];
  const named = job === undefined ? "JOB" : quoted(job);
  const set = `fettle set ${named}`;
  return [
    page.bold(`${sheet.id}: ${sheet.question}`),
    ...wrap(
      "Try a value with --try NAME=VALUE, and keep it with --record; or record your own with the command under each, adding --origin measured if you read it off the set. ± gives a tolerance, u a standard uncertainty.",
      page.columns,
    ),
    ...care.flatMap((c) => wrap(`[${stateWord[c.id === "open-live" ? "open-live" : "open-dead"]}] ${c.says}`, page.columns, "! ", "  ")),
    ...all.flatMap((i) => [
      "",
      page.bold(`  ${i.name} = ${i.value}${i.origin === "" ? "" : `  (${i.origin})`}`),
      ...wrap(i.says, page.columns, "    ", "    "),
      `    ${i.proved ? `proved by an act: fettle chassis ${named} STATE` : i.record === undefined ? "for trying only: no job stores it" : `${set} ${i.record}`}`,
    ]),
  ].join("\n");
}

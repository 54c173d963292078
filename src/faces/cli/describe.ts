import { amend } from "../../desk/commands/amend";
import { describe } from "../../desk/commands/describe";
import type { Description } from "../../desk/describe";
import { afterThis } from "../../job/due-tasks";
import type { Guess } from "../../job/rollups/guesses";
import { outlineFields } from "../../set/outline-fields";
import { sayIssue } from "../../units/issue";
import { line } from "./line";
import { columnsOf, type Page, wrap } from "./render";

/** The command that says what was guessed. */
export const sayGuess = (g: Guess, job: string): string => `fettle ${g.say[0]} "${job}" ${g.say[1]}`;

/** Guesses of tubes that come from the same, in one line. */
function together(all: readonly Guess[]): readonly Pick<Guess, "path" | "is" | "from">[] {
  const isTube = (g: Guess): boolean => g.path.startsWith("tubes.");
  const sources = [...new Set(all.filter(isTube).map((g) => g.from))];
  return [
    ...sources.map((from) => {
      const own = all.filter((g) => isTube(g) && g.from === from);
      return { path: "what tubes do", is: own.map((g) => g.is).join("; "), from: from.replace("its type and its place", "type and place") };
    }),
    ...all.filter((g) => !isTube(g)).map((g) => (g.path === "tubes" ? { ...g, path: "sockets" } : g)),
  ];
}
const labelOf = (field: string): string =>
  field.startsWith("fittings.") ? "Accessory" : (outlineFields.find((f) => f.id === field)?.label.replace(/,? one a line.*$/, "") ?? field);
function understoodText(d: Description, page: Page): string[] {
  const out = [page.bold("Understood:")];
  out.push(
    ...columnsOf(
      d.tubes.map((t) => [t.socket, t.type, t.stage, t.does]),
      page.columns,
    ),
  );
  out.push(
    ...columnsOf(
      Object.entries(d.fields).map(([f, text]) => [labelOf(f), text.replaceAll("\n", "; ")]),
      page.columns,
    ),
  );
  if (d.rows.length > 0)
    out.push(
      `  ${d.rows.length} ${d.rows.length === 1 ? "row" : "rows"} of the voltage chart:`,
      ...columnsOf(
        d.rows.map((r) => [
          r.socket,
          r.pin && `pin ${r.pin}`,
          r.electrode,
          r.volts && `${r.volts.replace(/\s*V$/i, "")} V`,
          r.ohms,
          r.measured && `measured ${r.measured} V`,
        ]),
        page.columns,
        "    ",
      ),
    );
  return out;
}

export const describeLine = line(describe, async ({ said, here, act, out, judge, world: { page } }) => {
  const { plan, told, recorded } = await act(said);
  if (here.json) out(JSON.stringify({ ...told, recorded }, null, 1));
  else {
    const lines = understoodText(plan, page);
    if (plan.makes && plan.guessed.length > 0)
      lines.push(
        "",
        page.bold("Guessed; you will be asked only when an answer leans on it:"),
        ...columnsOf(
          together(plan.guessed).map((g) => [g.path, `${g.is} (from ${g.from})`]),
          page.columns,
        ),
      );
    if (plan.unread.length > 0)
      lines.push("", page.bold("Not understood:"), ...plan.unread.flatMap((i) => wrap(sayIssue(i), page.columns, "  ", "    ")));
    if (plan.leftOut.length > 0)
      lines.push("", page.bold("Left out:"), ...plan.leftOut.flatMap((l) => wrap(l, page.columns, "  ", "    ")));
    lines.push("");
    if (recorded && plan.makes)
      lines.push(
        `Made the job "${plan.name}". Anything you didn't give is assumed until you measure or state it.`,
        "Treat it as live until its chassis is proved. B+ kills: unplug it before you look inside.",
        `Next: fettle history "${plan.name}"`,
      );
    else if (recorded) lines.push(`Added to the voltage chart of "${plan.name}".`);
    else if (plan.unread.length > 0)
      lines.push(
        "Nothing was recorded: correct those lines, or repeat with --leave-out to go on without them. Lines that begin with # are ignored.",
      );
    else lines.push("Nothing is recorded yet. Repeat with --yes to record it.");
    out(lines.join("\n"));
  }
  if (plan.unread.length > 0) judge(2);
});

export const amendLine = line(amend, async ({ said, act, out, world: { page } }) => {
  const { plan } = await act(said);
  const shown = (m: object | null | undefined): string =>
    m
      ? ["type", "function", "stage", "kind", "label", "tap", "state"]
          .flatMap((k) => (typeof own(m, k) === "string" && own(m, k) !== "" ? [`${k} ${own(m, k)}`] : []))
          .join(", ")
      : "not there";
  const lines = [
    ...wrap(`${said.list} ${said.member}: was ${shown(plan.was)}; is ${plan.is ? shown(plan.is) : "taken out"}.`, page.columns),
  ];
  if (plan.hangs.length > 0)
    lines.push("", page.bold("What depends on it:"), ...plan.hangs.flatMap((h) => wrap(`${h}.`, page.columns, "  - ", "    ")));
  lines.push(
    "",
    ...(plan.due.length > 0
      ? [
          page.bold(afterThis),
          ...columnsOf(
            plan.due.map((m) => [m.target, m.task, m.why]),
            page.columns,
          ),
        ]
      : ["No step you have begun rests on it. Questions that use it will be answered afresh."]),
    "",
    said.record ? `Recorded in "${said.job}". fettle undo "${said.job}" takes it back.` : "Nothing was recorded (--dry-run).",
  );
  out(lines.join("\n"));
});
const own = (m: object, key: string): unknown => (Object.hasOwn(m, key) ? (m as Record<string, unknown>)[key] : undefined);

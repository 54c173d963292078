import { openJob } from "../../desk/actions";
import { fault } from "../../desk/commands/fault";
import { faults } from "../../desk/commands/faults";
import { foundAndLeft } from "../../desk/commands/found-and-left";
import { leave } from "../../desk/commands/leave";
import { mend } from "../../desk/commands/mend";
import { partKindsCommand } from "../../desk/commands/part-kinds";
import { sitting } from "../../desk/commands/sitting";
import { wait } from "../../desk/commands/wait";
import { where } from "../../desk/commands/where";
import type { TracedFault } from "../../desk/traced";
import { afterThis } from "../../job/due-tasks";
import { isOpenFault } from "../../job/faults/faults";
import { actTold, shownBy } from "../../job/faults/told";
import { foremost } from "../../job/rollups/foremost";
import type { WhereLine } from "../../job/rollups/where";
import { actSaid } from "../../job/say-entry";
import { momentInWords, shortDay } from "../../units/day";
import { printValue } from "../../units/print";
import { upperFirst } from "../../units/sentence";
import { quoted } from "./inputs";
import { line } from "./line";
import { foremostText } from "./next-text";
import { columnsOf, findingLines, type Page, proofText, wrap } from "./render";

/** The thread of a job: where it stands, its faults, what was mended, sitting down and getting up. */
const whereText = (lines: readonly WhereLine[], page: Page): string =>
  lines.flatMap((l) => wrap(l.says, page.columns, `${`${l.head}:`.padEnd(9)} `, "          ")).join("\n");

export const whereLine = line(where, async ({ said, here, act, out, world: { page } }) => {
  const { title, lines } = await act(said);
  out(here.json ? JSON.stringify(lines, null, 1) : `${page.bold(`${said.job}: ${title}`)}\n${whereText(lines, page)}`);
});

function faultText(f: TracedFault, job: string, page: Page): string[] {
  const acts = f.acts.map((a) => `${shortDay(a.at)} ${actTold(f, a)}`);
  const ends = {
    noticed: `Trace it, then: fettle fault "${job}" cause ${f.id} --cause WHAT`,
    "being traced": `Once found: fettle fault "${job}" cause ${f.id} --cause WHAT`,
    "cause found": `Mend it: fettle mend "${job}" PART --at ${f.place} --fault ${f.id} ...`,
    mended: `Read again: ${f.toRead}. Then: fettle fault "${job}" prove ${f.id}`,
    proved: `Close it: fettle fault "${job}" close ${f.id}`,
    "open again": "A later reading contradicts it: trace it again.",
    closed: "",
    left: "",
  }[f.state];
  return [
    page.bold(`${f.id}  ${upperFirst(f.label)}: ${f.state}${f.unrecorded ? ", by a reading off its chart" : ""}`),
    ...shownBy(f).flatMap((t) => wrap(t, page.columns, "   ")),
    ...acts.flatMap((a) => wrap(a, page.columns, "   - ", "     ")),
    ...(f.cause ? wrap(`Cause: ${f.cause}.`, page.columns, "   ") : []),
    ...(f.explained ? wrap(`What explains it: ${f.explained}`, page.columns, "   ") : []),
    ...(f.asks && isOpenFault(f) ? [`   With: fettle sheet ${f.asks.sheet} "${job}"${f.asks.at ? ` --at ${f.asks.at}` : ""}`] : []),
    ...(ends ? wrap(ends, page.columns, "   -> ", "      ") : []),
  ];
}
export const faultsLine = line(faults, async ({ said, here, act, out, world: { page } }) => {
  const all = await act(said);
  if (here.json) return out(JSON.stringify(all, null, 1));
  out(
    all.length === 0
      ? "No fault noticed, and no reading off its chart."
      : all.map((f) => faultText(f, said.job, page).join("\n")).join("\n\n"),
  );
});

export const faultLine = line(fault, async ({ said, act, out }) => {
  const { id, does } = await act(said);
  out(`Recorded in "${said.job}": fault ${id} ${actSaid[does]}.`);
});

export const mendLine = line(mend, async ({ said, act, out, desk, world: { page } }) => {
  const { plan, refused } = await act(said);
  out(
    [
      ...(plan.danger ? [...findingLines(plan.danger, page), ""] : []),
      page.bold(afterThis),
      ...columnsOf(
        plan.due.map((m) => [m.target, m.task, m.why]),
        page.columns,
      ),
    ].join("\n"),
  );
  if (refused) throw refused;
  if (!said.record) {
    const asks = plan.asks.map((a) => [a.path, `${a.asks}. On record: ${a.stands}`]);
    if (asks.length > 0) out(["", "It will ask, by --now:", ...columnsOf(asks, page.columns)].join("\n"));
    return out("Nothing was recorded (--dry-run).");
  }
  const next = foremostText(await desk(async (d) => foremost(await openJob(d, said.job), d.stamp.at)), page, 3, quoted(said.job));
  out(`\nRecorded in "${said.job}". fettle undo "${said.job}" takes all of it back.\n\n${page.bold("Next:")}\n${next}`);
});

export const foundAndLeftLine = line(foundAndLeft, async ({ said, here, act, out, world: { page } }) => {
  const lines = await act(said);
  if (here.json) return out(JSON.stringify(lines, null, 1));
  out(lines.length === 0 ? "No volts, ohms or parts on record yet." : proofText(lines, page));
});

export const sittingLine = line(sitting, async ({ said, act, out }) => {
  const { sitting: now } = await act(said);
  const carried = [
    now.meter,
    now.gridMeter && `grids by ${now.gridMeter}`,
    now.thermal,
    now.line && `line ${printValue(now.line.value, "voltage")}`,
  ].filter((t) => t);
  const who = now.initials || now.who;
  out(
    `${who} sits down at "${said.job}"${carried.length > 0 ? `: ${carried.join(", ")}; carried on to the readings of this session` : ""}.`,
  );
});
export const leaveLine = line(leave, async ({ said, act, out }) => {
  await act(said);
  out(`Left: ${said.power}, case ${said.case}. fettle "${said.job}" will remind you when you sit down again.`);
});
export const waitLine = line(wait, async ({ said, act, out }) => {
  const { for: what, until } = await act(said);
  out(said.over ? `No longer waiting for ${what}.` : `Waiting for ${what}${until ? `, until ${momentInWords(until)}` : ""}.`);
});
export const partKindsLine = line(partKindsCommand, async ({ said, act, out, world: { page } }) =>
  out(
    columnsOf(
      (await act(said)).map((k) => [k.id, k.title, k.where.join(", "), k.follows ? `record follows at ${k.follows}` : ""]),
      page.columns,
    ).join("\n"),
  ),
);

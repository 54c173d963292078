import { openJob } from "../../desk/actions";
import { instrument } from "../../desk/commands/instrument";
import { read } from "../../desk/commands/read";
import { set } from "../../desk/commands/set";
import { takeBack } from "../../desk/commands/take-back";
import { work } from "../../desk/commands/work";
import { zeroBeat } from "../../desk/commands/zero-beat";
import { zeroBeats } from "../../desk/commands/zero-beats";
import { sayRow } from "../../desk/read-in/beat-row";
import { afterThis } from "../../job/due-tasks";
import { foremost } from "../../job/rollups/foremost";
import { quoted } from "./inputs";
import { line } from "./line";
import { foremostText } from "./next-text";
import { columnsOf, findingLines, fitText } from "./render";

/** What is recorded in a job: readings, values, instruments, work. */
export const readLine = line(read, async ({ said, act, out, world: { page } }) => {
  const { reading, fit } = (await act(said)).read;
  out(
    [
      `${reading.id}: ${reading.file.name}, ${reading.as}, ${reading.state}`,
      ...columnsOf(
        reading.figures.map((f) => [f.name, f.text]),
        page.columns,
      ),
      ...reading.warnings.map((w) => `  ! ${w}`),
    ].join("\n"),
  );
  if (fit) out(fitText(fit, page));
  out(said.record === "yes" ? `Recorded in "${said.job}".` : "Nothing was recorded (--dry-run).");
});

export const zeroBeatLine = line(zeroBeat, async ({ said, act, out }) => {
  const { entry } = await act(said);
  out(`Recorded in "${said.job}": ${said.reading} on band ${said.band} is ${said.frequency}.`);
  if (entry.kind === "reading")
    for (const odd of entry.reading.warnings) out(`But check it: ${odd} fettle undo "${said.job}" takes it back.`);
});

export const zeroBeatsLine = line(zeroBeats, async ({ said, act, out }) => {
  const row = await act(said);
  out(`${said.record ? `Recorded in "${said.job}", band ${said.band}` : "Nothing was recorded (--dry-run)"}. ${sayRow(row)}`);
  if (said.record) out(`If the dial is a whole mark off, take it back (fettle undo "${said.job}") and say the first mark with --from.`);
});

export const takeBackLine = line(takeBack, async ({ said, act, out }) =>
  out(`Taken back in "${said.job}": ${await act(said)}. It stays in the history; later rows move up.`),
);

export const setLine = line(set, async ({ said, act, out }) => {
  const { entries } = await act(said);
  out(`Recorded ${entries.length} ${entries.length === 1 ? "value" : "values"} in "${said.job}". The earlier ones stay in its history.`);
});

export const instrumentLine = line(instrument, async ({ said, act, out }) => {
  await act(said);
  out(`Registered ${said.id} in "${said.job}".`);
});

export const workLine = line(work, async ({ said, act, out, desk, world: { page } }) => {
  const { plan, refused } = await act(said);
  out(
    [
      ...(plan.danger ? [...findingLines(plan.danger, page), ""] : []),
      page.bold(afterThis),
      ...columnsOf(
        plan.due.map((m) => [m.target, m.task, `${m.why}${m.amount ? `. By how much: ${m.amount}` : ""}`]),
        page.columns,
      ),
    ].join("\n"),
  );
  if (refused) throw refused;
  if (said.record) {
    const next = foremostText(await desk(async (d) => foremost(await openJob(d, said.job), d.stamp.at)), page, 4, quoted(said.job));
    return out(`\nRecorded in "${said.job}".\n\n${page.bold("Next:")}\n${next}`);
  }
  const asks = plan.asks.map((a) => [a.path, `${a.asks}. On record: ${a.stands}`]);
  if (asks.length > 0) out(["", "It will ask, by --now:", ...columnsOf(asks, page.columns)].join("\n"));
  out("Nothing was recorded (--dry-run).");
});

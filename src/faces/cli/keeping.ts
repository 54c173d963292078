import { resolve } from "node:path";
import { eraseJob, sayErased } from "../../desk/erase";
import { backupStore } from "../../store/backup";
import { type Checked, checkStore } from "../../store/check";
import { mendStore } from "../../store/mend";
import { storePath } from "../../store/sqlite";
import type { Commands } from "./commands";
import { replaceOption, writeBytes, writeOutput } from "./output";
import type { World } from "./world";

const mostSaid = 40;
function saidOf(c: Checked): string[] {
  const shown = c.wrong.slice(0, mostSaid).map((w) => `  ${w.says}`);
  return c.wrong.length > mostSaid ? [...shown, `  and ${c.wrong.length - mostSaid} more`] : shown;
}
const looked = (c: Checked): string =>
  `Looked at ${c.jobsCount} jobs, ${c.entriesCount} entries, ${c.filesCount} files${c.asideCount > 0 ? `; ${c.asideCount} were set aside earlier` : ""}.`;

async function keepBackup(world: World, path: string, replace: boolean, damagedToo = false): Promise<number> {
  let jobsCount = 0;
  await writeOutput(world, { path, replace, mine: true }, async (file) => {
    jobsCount = await backupStore(storePath(world.env), file, damagedToo);
  });
  return jobsCount;
}

/** The store as a whole: copied, looked through, mended; and what is taken out of it for good. */
export function keepingCommands({ command, desk, world, judge }: Commands): void {
  const { out } = world;
  command(
    "erase <job>",
    "take a job out of the store for good, its readings and photographs with it; its zip is written first",
    'fettle erase "Kitchen set" --confirm "Kitchen set"',
  )
    .option("--confirm <name>", "the name of the job, said once more", "")
    .option("--export <file>", "where its zip is written first; else beside you, by the job's name")
    .option("--no-export", "write no zip: nothing of it stays")
    .action(async (job: string, o: { confirm: string; export?: string | boolean }) => {
      const file = typeof o.export === "string" ? o.export : `${job.replace(/[^\p{L}\p{N}]+/gu, "-").slice(0, 80)}-erased.zip`;
      const keep = (zip: Uint8Array): Promise<void> => writeBytes(world, { path: file, replace: false, mine: true }, zip);
      const erased = await desk((d) => eraseJob(d, { name: job, confirm: o.confirm }, o.export === false ? undefined : keep));
      if (o.export !== false) out(`Wrote ${resolve(file)} first: fettle import takes it in again.`);
      for (const line of sayErased(job, erased)) out(line);
    });

  command("backup <file>", "copy the whole store, every job and file in it, and read the copy through", "fettle backup jobs-backup.db")
    .option(...replaceOption)
    .action(async (file: string, o: { replace?: boolean }) => {
      const jobsCount = await keepBackup(world, file, o.replace ?? false);
      out(
        `Wrote ${resolve(file)}: ${jobsCount} ${jobsCount === 1 ? "job" : "jobs"}, read through and whole. To use it, set FETTLE_STORE to it, or put it in the store's place.`,
      );
    });

  command(
    "check-store",
    "look the whole store through: the database, every job, every entry, every file; exits with 1 where something is wrong",
    "fettle check-store",
  )
    .option("--mend", "after a backup, set aside what can't be read: nothing is deleted, and exports carry it along")
    .action(async (o: { mend?: boolean }) => {
      const path = storePath(world.env);
      const found = checkStore(path);
      out(looked(found));
      if (found.wrong.length === 0) return out("All of it can be read, and is whole.");
      out(["Wrong:", ...saidOf(found)].join("\n"));
      if (!o.mend) {
        out("Nothing was changed. fettle check-store --mend sets aside what can't be read, after a backup; all else stays as it is.");
        return judge(1);
      }
      const kept = `${path}.before-mending-${world.now().replace(/\D/g, "").slice(0, 14)}`;
      await keepBackup(world, kept, false, true);
      const { setAside, after } = await mendStore(path, world.now);
      out(`The store as it was is kept: ${kept}\nSet aside: ${setAside.length}. Nothing was deleted.`);
      if (after.wrong.length === 0) return out("The rest can be read, and is whole.");
      out(["Still wrong, and nothing that setting aside would mend:", ...saidOf(after)].join("\n"));
      judge(1);
    });
}

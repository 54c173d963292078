import { resolve } from "node:path";
import { backup } from "../../desk/commands/backup";
import { checkStore } from "../../desk/commands/check-store";
import { erase } from "../../desk/commands/erase";
import { backupStore } from "../../store/backup";
import type { Checked } from "../../store/check";
import { storePath } from "../../store/sqlite";
import { line } from "./line";
import { writeBytes, writeOutput } from "./output";

const mostSaid = 40;
function saidOf(c: Checked): string[] {
  const shown = c.wrong.slice(0, mostSaid).map((w) => `  ${w.says}`);
  return c.wrong.length > mostSaid ? [...shown, `  and ${c.wrong.length - mostSaid} more`] : shown;
}
const looked = (c: Checked): string =>
  `Looked at ${c.jobsCount} jobs, ${c.entriesCount} entries, ${c.filesCount} files${c.asideCount > 0 ? `; ${c.asideCount} were set aside earlier` : ""}.`;

/** The store as a whole: copied, looked through, mended; and what is taken out of it for good. */
export const eraseLine = line(erase, async ({ said, here, act, out, world }) => {
  const file = here.export ?? `${said.job.replace(/[^\p{L}\p{N}]+/gu, "-").slice(0, 80)}-erased.zip`;
  const keep = (zip: Uint8Array): Promise<void> => writeBytes(world, { path: file, replace: false, mine: true }, zip);
  const erased = await act(said, here.keep ? { keep } : {});
  if (here.keep) out(`Wrote ${resolve(file)} first: fettle import brings it back.`);
  for (const text of erased) out(text);
});

export const backupLine = line(backup, async ({ said, here, act, out, world }) => {
  let jobsCount = 0;
  await writeOutput(world, { path: said.file, replace: here.replace, mine: true }, async (file) => {
    jobsCount = await act({ ...said, store: storePath(world.env), file });
  });
  out(
    `Wrote ${resolve(said.file)}: ${jobsCount} ${jobsCount === 1 ? "job" : "jobs"}, checked and whole. To use it, set FETTLE_STORE to it, or put it in place of the store.`,
  );
});

export const checkStoreLine = line(checkStore, async ({ here, act, out, world, judge }) => {
  const store = storePath(world.env);
  const { found, mended } = await act({ store });
  out(looked(found));
  if (found.wrong.length === 0) return out("Everything can be read, and is whole.");
  out(["Wrong:", ...saidOf(found)].join("\n"));
  if (!here.mend) {
    out("Nothing was changed. fettle check-store --mend makes a backup, then sets aside what can't be read; the rest stays as it is.");
    return judge(1);
  }
  const kept = `${store}.before-mending-${world.now().replace(/\D/g, "").slice(0, 14)}`;
  await writeOutput(world, { path: kept, replace: false, mine: true }, async (file) => {
    await backupStore(store, file, true);
  });
  const { setAside, after } = await mended(world.now);
  out(`The store as it was: ${kept}\nSet aside: ${setAside.length}. Nothing was deleted.`);
  if (after.wrong.length === 0) return out("The rest can be read, and is whole.");
  out(["Still wrong, and setting aside won't help:", ...saidOf(after)].join("\n"));
  judge(1);
});

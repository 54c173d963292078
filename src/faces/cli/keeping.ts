import { basename, resolve } from "node:path";
import { backup } from "../../desk/commands/backup";
import { checkStore } from "../../desk/commands/check-store";
import { erase } from "../../desk/commands/erase";
import { restore } from "../../desk/commands/restore";
import { setUpStore } from "../../desk/commands/set-up-store";
import { upgradeStore } from "../../desk/commands/upgrade-store";
import { backupStore, fileDigest } from "../../store/backup";
import type { Checked } from "../../store/check";
import { homeOf, sayHome } from "../../store/home";
import { checksumBeside } from "../../store/restore";
import { counted } from "../../units/sentence";
import { line } from "./line";
import { writeBytes, writeOutput } from "./output";
import type { World } from "./world";

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

/** Writes a copy of the store whole or not at all, and its checksum beside it, as `sha256sum` writes it. */
async function copied(world: World, file: string, copy: { readonly replace: boolean; readonly make: (to: string) => Promise<void> }) {
  await writeOutput(world, { path: file, replace: copy.replace, mine: true }, copy.make);
  const digest = await fileDigest(file);
  await writeBytes(world, { path: checksumBeside(file), replace: true, mine: true }, `${digest}  ${basename(file)}\n`);
}

export const backupLine = line(backup, async ({ said, here, act, out, world }) => {
  let jobsCount = 0;
  const make = async (file: string): Promise<void> => {
    jobsCount = await act({ ...said, store: homeOf(world.env), file });
  };
  await copied(world, said.file, { replace: here.replace, make });
  out(
    `Wrote ${resolve(said.file)}: ${counted(jobsCount, "job")}, checked and whole; its checksum is beside it (.sha256). To use it, fettle restore it into a store, or set FETTLE_STORE to it.`,
  );
});

export const restoreLine = line(restore, async ({ said, act, out, world }) => {
  const home = homeOf(world.env);
  const { jobsCount, entriesCount, filesCount, alreadyCount } = await act({ ...said, store: home });
  const there = alreadyCount > 0 ? ` ${counted(alreadyCount, "job was", "jobs were")} here already, word for word.` : "";
  out(
    `Brought ${counted(jobsCount, "job")} into ${sayHome(home)}, each the same by its checksum: ${counted(entriesCount, "entry", "entries")}, ${counted(filesCount, "file")}.${there}`,
  );
});

export const setUpStoreLine = line(setUpStore, async ({ said, act, out, world }) => {
  const home = homeOf(world.env);
  const done = await act({ ...said, store: home });
  if (done === undefined) return out("Nothing to do: a store in a file has no accounts of a database.");
  out(`${done.made ? "Made the tables" : "The tables are there"} in ${sayHome(home)}.`);
  if (done.warning !== undefined) return out(done.warning);
  out(`${said.server} may read them and add to them. It can't alter them, nor change or remove an entry or a row of the trail.`);
});

export const upgradeStoreLine = line(upgradeStore, async ({ said, act, out, world }) => {
  const home = homeOf(world.env);
  if (home.kind === "file") return out("Nothing to do: a store in a file is brought up to date whenever it is opened.");
  const made: { upgrade?: () => Promise<readonly string[]>; jobsCount?: number } = {};
  const make = async (file: string): Promise<void> => {
    Object.assign(made, await act({ ...said, store: home, file }));
  };
  await copied(world, said.file, { replace: false, make });
  out(`Wrote ${resolve(said.file)} first: ${counted(made.jobsCount ?? 0, "job")}, checked and whole.`);
  const steps = (await made.upgrade?.()) ?? [];
  out(steps.length === 0 ? `${sayHome(home)} was up to date.` : `Brought ${sayHome(home)} up to date: ${counted(steps.length, "step")}.`);
});

export const checkStoreLine = line(checkStore, async ({ here, act, out, world, judge }) => {
  const store = homeOf(world.env);
  const { found, mended } = await act({ store });
  out(looked(found));
  if (found.wrong.length === 0) return out("Everything can be read, and is whole.");
  out(["Wrong:", ...saidOf(found)].join("\n"));
  if (!here.mend) {
    out("Nothing was changed. fettle check-store --mend makes a backup, then sets aside what can't be read; the rest stays as it is.");
    return judge(1);
  }
  // refused there, before anything is written
  if (store.kind === "shop") await mended(world.now);
  const kept = `${store.kind === "file" ? store.path : "shop"}.before-mending-${world.now().replace(/\D/g, "").slice(0, 14)}`;
  await writeOutput(world, { path: kept, replace: false, mine: true }, async (file) => {
    await backupStore(store, file, true);
  });
  const { setAside, after } = await mended(world.now);
  out(`The store as it was: ${kept}\nSet aside: ${setAside.length}. Nothing was deleted.`);
  if (after.wrong.length === 0) return out("The rest can be read, and is whole.");
  out(["Still wrong, and setting aside won't help:", ...saidOf(after)].join("\n"));
  judge(1);
});

/** What a disk does: it loses power between two writes, and it is full. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import fc from "fast-check";
import { hashOfBytes } from "../../../src/store/archive";
import { checkStore } from "../../../src/store/check";
import { openHome } from "../../../src/store/home";
import { serverPrograms, startShop } from "../../../src/store/shop.testdata";
import { openSqlite } from "../../../src/store/sqlite";
import { chances, folder, type Part, part, some, troubles } from "../kit";
import { emptyJob, entry, heldTo, pause, servedDatabase, writer } from "./homes";

const sectorBytes = 512;
/** A file as a power cut may leave it: of what was written since it was last synced any sectors reached the disk, and it ends anywhere between. */
function torn(synced: Buffer, written: Buffer, reached: (sector: number) => boolean, endShare: number): Buffer {
  const end = Math.round(synced.length + endShare * Math.max(0, written.length - synced.length));
  const out = Buffer.alloc(Math.max(synced.length, end));
  synced.copy(out);
  for (let at = 0, n = 0; at < out.length; at += sectorBytes, n++)
    if (reached(n)) written.copy(out, at, at, Math.min(at + sectorBytes, out.length));
  return out;
}
interface Lot {
  readonly seed: number;
  readonly reach: number;
  readonly end: number;
  readonly writes: number;
  readonly checkpoint: boolean;
}
const lots: fc.Arbitrary<Lot> = fc.record({
  seed: fc.integer({ min: 1, max: 2 ** 31 - 2 }),
  reach: fc.constantFrom(0, 0.2, 0.5, 0.8, 1),
  end: fc.double({ min: 0, max: 1, noNaN: true }),
  writes: fc.integer({ min: 1, max: 6 }),
  checkpoint: fc.boolean(),
});
/** Stores are changed after so many rounds: each is read through after each. */
const roundsAStore = 40;
/** Loses power again and again in one store; returns how many entries were acknowledged, and how many more had reached the disk. */
async function powerIn(rounds: readonly Lot[], t: ReturnType<typeof troubles>): Promise<readonly [acknowledged: number, more: number]> {
  const place = folder();
  const [path, after] = [join(place, "jobs.db"), join(place, "after.db")];
  const s = await openSqlite(path);
  await s.create(emptyJob("K"));
  const raw = new Database(path);
  const ids: string[] = [];
  const write = async (): Promise<void> => {
    const id = `e${ids.length}`;
    await s.append("K", [entry(id, "t")]);
    ids.push(id);
  };
  const read = (end: string): Buffer => (existsSync(`${path}${end}`) ? readFileSync(`${path}${end}`) : Buffer.alloc(0));
  let more = 0;
  for (const { seed, reach, end, writes, checkpoint } of rounds) {
    const chance = chances(seed);
    await write();
    // all up to here was acknowledged, so synced
    const [acknowledged, database, log] = [ids.length, read(""), read("-wal")];
    if (checkpoint) raw.pragma("wal_checkpoint(PASSIVE)");
    else for (let i = 0; i < writes; i++) await write();
    const any = (): boolean => chance() < reach;
    writeFileSync(after, torn(database, read(""), any, end));
    writeFileSync(`${after}-wal`, checkpoint ? log : torn(log, read("-wal"), any, end));
    const again = await openSqlite(after);
    const found = (await again.load("K"))?.document.entries.map((e) => e.id) ?? [];
    if (found.length < acknowledged) t.add("lost", `${acknowledged - found.length} entries, seed ${seed}`);
    if (found.some((id, i) => id !== ids[i])) t.add("torn or out of order", `seed ${seed}`);
    more += found.length - acknowledged;
    await again.append("K", [entry("afterwards", "t")]).catch((e) => t.add("nothing can be recorded after it", String(e)));
    await again.close();
    for (const w of checkStore(after).wrong) t.add("the store", w.says);
    for (const tail of ["", "-wal", "-shm"]) rmSync(`${after}${tail}`, { force: true });
  }
  raw.close();
  await s.close();
  rmSync(place, { recursive: true, force: true });
  return [ids.length, more];
}
export const power: Part = async (share) => {
  const t = troubles();
  const rounds = some(lots, part(share, 1000));
  let [acknowledged, more] = [0, 0];
  for (let i = 0; i < rounds.length; i += roundsAStore) {
    const [own, ownMore] = await powerIn(rounds.slice(i, i + roundsAStore), t);
    acknowledged += own;
    more += ownMore;
  }
  return {
    attack: `power lost in mid-write or while the log is brought into the file: of what was written since the last sync any sectors of ${sectorBytes} bytes reach the disk, and the files end anywhere between`,
    count: rounds.length,
    said: `${acknowledged} acknowledged entries: none lost, none torn, each store whole and written to afterwards; ${more} entries more had reached the disk whole`,
    broke: t.lines(),
  };
};

/** A disk of so many megabytes, in memory; undefined where this account may make none. */
function smallDisk(megabytes: number): { readonly at: string; readonly drop: () => void } | undefined {
  const at = folder();
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", `size=${megabytes}m`, "tmpfs", at], { stdio: "ignore" });
  } catch {
    rmSync(at, { recursive: true, force: true });
    return undefined;
  }
  const drop = (): void => {
    execFileSync("umount", ["-l", at]);
    rmSync(at, { recursive: true, force: true });
  };
  return { at, drop };
}
/** Takes what is left of a disk but so many bytes. */
function fill(at: string, butBytes: number): string {
  const file = join(at, "filler");
  const left = Number(execFileSync("df", ["--output=avail", "-B1", at], { encoding: "utf8" }).trim().split("\n").at(-1));
  writeFileSync(file, Buffer.alloc(Math.max(0, left - butBytes), 1));
  return file;
}
async function fullFile(rounds: readonly number[], t: ReturnType<typeof troubles>): Promise<number> {
  const disk = smallDisk(16);
  if (!disk) return 0;
  const path = join(disk.at, "jobs.db");
  let refusals = 0;
  let s = await openSqlite(path);
  await s.create(emptyJob("K"));
  const acknowledged: string[] = [];
  for (const [round, butBytes] of rounds.entries()) {
    const filler = fill(disk.at, butBytes);
    for (let i = 0; i < 400; i++) {
      const id = `e${round}-${i}`;
      const bytes = new TextEncoder().encode(id.padEnd(3000, " "));
      const photograph = { hash: hashOfBytes(bytes), name: id, media: "image/png", bytes };
      const refused = await s.append("K", [entry(id, "t")], [photograph]).then(
        () => undefined,
        (e) => String(e.code ?? e),
      );
      if (refused === undefined) acknowledged.push(id);
      else {
        refusals++;
        if (!["full", "failing", "read-only"].includes(refused)) t.add("said otherwise", refused);
        break;
      }
    }
    const found = (await s.load("K"))?.document.entries.map((e) => e.id);
    if (JSON.stringify(found) !== JSON.stringify(acknowledged)) t.add("not what was acknowledged", `round ${round}`);
    rmSync(filler);
    await s.close();
    s = await openSqlite(path);
    await s.append("K", [entry(`after-${round}`, "t")]).then(
      () => acknowledged.push(`after-${round}`),
      (e) => t.add("nothing can be recorded once there is room", String(e)),
    );
    // the next round has room again
    if (statSync(path).size > 8e6) break;
  }
  await s.close();
  for (const w of checkStore(path).wrong) t.add("the store", w.says);
  disk.drop();
  return refusals;
}
async function fullDatabase(rounds: readonly number[], t: ReturnType<typeof troubles>): Promise<number> {
  const disk = serverPrograms === undefined ? undefined : smallDisk(260);
  if (!disk) return 0;
  const before = process.env.TMPDIR;
  const within = join(disk.at, "server");
  mkdirSync(within, { mode: 0o755 });
  process.env.TMPDIR = within;
  execFileSync("chmod", ["755", disk.at]);
  const shop = await startShop({ max_wal_size: "32MB", min_wal_size: "32MB", wal_keep_size: "0" }).finally(() => {
    if (before === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = before;
  });
  let refusals = 0;
  const s = await openHome({ kind: "shop", url: await servedDatabase(shop) });
  await s.create(emptyJob("K"));
  const writers: ReturnType<typeof writer>[] = [];
  for (const [round, butBytes] of rounds.entries()) {
    const filler = fill(disk.at, butBytes);
    let refused = false;
    for (let i = 0; i < 400 && !refused; i++) {
      const bytes = Uint8Array.from({ length: 60_000 }, (_, k) => (k * (i + 7) * (round + 3)) % 251);
      refused = await s
        .append(
          "K",
          [entry(`big-${round}-${i}-a`, "t"), entry(`big-${round}-${i}-b`, "t")],
          [{ hash: hashOfBytes(bytes), name: "p", media: "image/png", bytes }],
        )
        .then(
          () => false,
          (e) => {
            if (!["full", "away", "failing"].includes(String(e.code))) t.add("said otherwise", String(e));
            return true;
          },
        );
    }
    if (refused) refusals++;
    rmSync(filler);
    // a server that has stopped itself is started again, as its owner does once there is room
    await shop.kill();
    await shop.start();
    const w = writer(s, "K", `after${round}`, t);
    while (w.acknowledged.length < 10) await pause(20);
    await w.stop();
    writers.push(w);
  }
  await heldTo(s, "K", writers, t);
  await s.close();
  await shop.end();
  disk.drop();
  return refusals;
}
export const full: Part = async (share) => {
  const t = troubles();
  const rounds = some(fc.integer({ min: 20_000, max: 900_000 }), part(share, 20));
  const file = await fullFile(rounds, t);
  const databaseRounds = rounds.slice(0, Math.max(1, Math.round(rounds.length / 4)));
  const database = await fullDatabase(databaseRounds, t);
  return {
    attack: "a disk that is really full, at any byte of a write, then given room again: a store in a file, and PostgreSQL",
    count: rounds.length + databaseRounds.length,
    said:
      file === 0
        ? "skipped: this account may not make a small disk"
        : `${file + database} refused in words; all that was acknowledged is there, nothing else, and it goes on once there is room`,
    broke: t.lines(),
  };
};

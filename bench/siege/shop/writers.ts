/** Many write at once while what they write to is killed or cut off: nothing that was acknowledged is lost, nothing is doubled. */
import { connect, createServer, type Socket } from "node:net";
import fc from "fast-check";
import { openHome } from "../../../src/store/home";
import { serverPrograms } from "../../../src/store/shop.testdata";
import { type Part, part, some, troubles } from "../kit";
import { emptyJob, entry, heldTo, inBothHomes, inShop, kindsAmong, pause, servedDatabase, type Writer, writer } from "./homes";

const skipped = (attack: string) => ({ attack, count: 0, said: "skipped: PostgreSQL is not installed", broke: [] });
const both = (writers: readonly Writer[], m: number): string =>
  `${writers.reduce((n, w) => n + w.acknowledged.length, 0)} acknowledged writes, ${kindsAmong(writers)}: none lost, none torn, none doubled, each writer's in its order; ${m} more were written and not acknowledged in time`;

/** PostgreSQL's own first process and all that it started, killed at any moment. */
export const databaseKills: Part = async (share) => {
  const attack = "SIGKILL of PostgreSQL itself, all its processes, while three benches write into one job";
  if (serverPrograms === undefined) return skipped(attack);
  const t = troubles();
  const delays = some(fc.integer({ min: 0, max: 700 }), part(share, 50));
  return inShop(async (shop) => {
    const home = { kind: "shop" as const, url: await servedDatabase(shop) };
    const stores = [await openHome(home), await openHome(home), await openHome(home)];
    await stores[0].create(emptyJob("K"));
    const writers = stores.map((s, i) => writer(s, "K", `bench${i}`, t));
    for (const delay of delays) {
      await pause(200 + delay);
      await shop.kill();
      await shop.start();
    }
    await pause(300);
    await Promise.all(writers.map((w) => w.stop()));
    const more = await heldTo(stores[0], "K", writers, t);
    await Promise.all(stores.map((s) => s.close()));
    return {
      attack,
      count: delays.length,
      said: both(writers, more),
      broke: t.lines(),
    };
  });
};

const benchesCount = 20;
const wholeMinutes = 10;
/** Twenty benches and one job, on each home. */
export const benches: Part = async (share) => {
  const t = troubles();
  const minutes = share * wholeMinutes;
  const counts = await inBothHomes(async (home, where) => {
    const stores = await Promise.all(Array.from({ length: benchesCount }, async () => openHome(home)));
    await stores[0].create(emptyJob("K"));
    const writers = stores.map((s, i) => writer(s, "K", `bench${String(i).padStart(2, "0")}`, t));
    await pause(minutes * 60_000);
    await Promise.all(writers.map((w) => w.stop()));
    await heldTo(stores[0], "K", writers, t);
    const each = writers.map((w) => w.acknowledged.length);
    if (Math.min(...each) === 0) t.add("a bench that had no turn", where);
    await Promise.all(stores.map((s) => s.close()));
    return `${each.reduce((a, b) => a + b, 0)} entries in the ${where}, ${Math.min(...each)} to ${Math.max(...each)} a bench, ${kindsAmong(writers)}`;
  });
  return {
    attack: `${benchesCount} benches that write to one job without a pause, for ${Number(minutes.toPrecision(2))} minutes on each home (${wholeMinutes} when whole)`,
    count: benchesCount,
    said: `${counts.join("; ")}: each present once, each bench's in its order`,
    broke: t.lines(),
  };
};

/** A way to a server that is cut at any byte, and opened again. */
async function cuttable(port: number) {
  const ways = new Set<Socket>();
  let isOpen = true;
  const server = createServer((near) => {
    if (!isOpen) return void near.destroy();
    const far = connect(port, "127.0.0.1");
    for (const [from, to] of [
      [near, far],
      [far, near],
    ]) {
      ways.add(from);
      from
        .on("error", () => to.destroy())
        .on("close", () => {
          ways.delete(from);
          to.destroy();
        });
      from.pipe(to);
    }
  });
  await new Promise<void>((r) => server.listen(0, "127.0.0.1", () => r()));
  return {
    port: (server.address() as { port: number }).port,
    cut: () => {
      isOpen = false;
      for (const w of ways) w.destroy();
    },
    restore: () => {
      isOpen = true;
    },
    close: () => new Promise<void>((r) => server.close(() => r())),
  };
}
export const cuts: Part = async (share) => {
  const attack = "the connection to PostgreSQL cut at any byte, for up to 0.4 s, while three benches write into one job";
  if (serverPrograms === undefined) return skipped(attack);
  const t = troubles();
  const rounds = some(fc.record({ after: fc.integer({ min: 0, max: 60 }), away: fc.integer({ min: 0, max: 400 }) }), part(share, 300));
  return inShop(async (shop) => {
    const direct = { kind: "shop" as const, url: await servedDatabase(shop) };
    const way = await cuttable(Number(new URL(direct.url).port));
    const url = new URL(direct.url);
    url.port = String(way.port);
    const stores = await Promise.all([1, 2, 3].map(() => openHome({ kind: "shop", url: url.href })));
    await stores[0].create(emptyJob("K"));
    const writers = stores.map((s, i) => writer(s, "K", `bench${i}`, t));
    const count = (): number => writers.reduce((n, w) => n + w.acknowledged.length, 0);
    for (const { after, away } of rounds) {
      await pause(after);
      way.cut();
      await pause(away);
      way.restore();
      // something comes through between two cuts
      const before = count();
      while (count() === before) await pause(5);
    }
    await pause(500);
    await Promise.all(writers.map((w) => w.stop()));
    const more = await heldTo(stores[0], "K", writers, t);
    await Promise.all(stores.map((s) => s.close()));
    await way.close();
    return {
      attack,
      count: rounds.length,
      said: both(writers, more),
      broke: t.lines(),
    };
  });
};

/** A clock that jumps, back most of all: what is recorded stays in the order in which it was recorded, and nobody is held off. */
export const clock: Part = async (share) => {
  const t = troubles();
  const jumps = some(fc.integer({ min: -400 * 24 * 3600, max: 30 * 24 * 3600 }), part(share, 200));
  await inBothHomes(async (home, where) => {
    let ms = Date.parse("2026-06-01T00:00:00.000Z");
    const s = await openHome(home, () => new Date(ms).toISOString());
    await s.create(emptyJob("K"));
    const { accounts, sessions, audit } = s.keeping();
    await accounts.setPassword(await accounts.make("Ann", "keeper", "t"), "four old brass knobs", "");
    const ids: string[] = [];
    for (const [i, jump] of jumps.entries()) {
      ms += jump * 1000;
      ids.push(`e${i}`);
      const before = await s.changeCount();
      await s.append("K", [{ ...entry(`e${i}`, "t"), at: new Date(ms).toISOString() }]);
      if ((await s.changeCount()) <= before) t.add("pages would not be told", where);
      await audit.tell({ who: "t", what: "jumped", about: String(i) });
      if (i % 20 === 0 && (await sessions.signIn({ name: "Ann", password: "four old brass knobs", from: "192.168.1.20" })).is !== "in")
        t.add("a keeper held off", `${where}, jump ${i}`);
    }
    const found = (await s.load("K"))?.document.entries.map((e) => e.id);
    if (JSON.stringify(found) !== JSON.stringify(ids)) t.add("out of order", where);
    for (const w of (await audit.verify()).wrong) t.add("the trail", w);
    if ((await s.retention().list()).past.length > 0) t.add("past its time though kept for ever", where);
    await s.close();
  });
  return {
    attack: "the clock put back by up to 400 days, or on by up to 30, before each entry, on each home",
    count: jumps.length,
    said: "entries in the order in which they were recorded, pages told of each, the trail whole, the keeper let in",
    broke: t.lines(),
  };
};

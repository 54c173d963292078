/** Both homes of a store for tests: files of SQLite's in a folder of their own, and databases of a real PostgreSQL server. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe } from "vitest";
import type { Home } from "./home";
import { setUpShop } from "./set-up-shop";
import { type Shop, serverPrograms, startShop } from "./shop.testdata";

type FileHome = Extract<Home, { kind: "file" }>;
type ShopHome = Extract<Home, { kind: "shop" }>;
/** One of the two: each fresh home is empty. */
interface OneHome {
  readonly kind: Home["kind"];
  readonly fresh: () => Promise<Home>;
}
interface BothHomes {
  readonly folder: string;
  /** a path in that folder at which nothing is yet */
  readonly path: () => string;
  readonly file: () => FileHome;
  readonly database: () => Promise<ShopHome>;
  /** the server; it is there from the first test on */
  readonly shop: () => Shop;
  /** the same tests in each home */
  readonly inEach: (what: string, tests: (home: OneHome) => void) => void;
  /** tests of a shop's database alone */
  readonly inShop: (what: string, tests: () => void) => void;
}

/** Whether there can be a shop's database: else what needs one is skipped by name. */
export const shopIsHere = serverPrograms !== undefined;
const skipped = "(skipped where PostgreSQL is not installed)";

/** Starts what a file of tests needs of both homes, and clears it away after the last; called once, at the head of the file. */
export function bothHomes(name: string): BothHomes {
  const folder = mkdtempSync(join(tmpdir(), `${name}-`));
  let server: Shop | undefined;
  let n = 0;
  beforeAll(async () => {
    if (shopIsHere) server = await startShop();
  });
  afterAll(async () => {
    await server?.end();
    rmSync(folder, { recursive: true, force: true });
  });
  const path = () => join(folder, `s${++n}.db`);
  const shop = () => {
    if (server === undefined) throw new Error("no shop's database is here, or not yet");
    return server;
  };
  const file = (): FileHome => ({ kind: "file", path: path() });
  const database = async (): Promise<ShopHome> => ({ kind: "shop", url: await shop().database() });
  /** as a shop's page sets it up: the server can't alter its tables, nor change an entry */
  const served = async (): Promise<ShopHome> => {
    const { owner, server: url } = await shop().accounts();
    await setUpShop(owner, new URL(url).username);
    return { kind: "shop", url };
  };
  const inShop: BothHomes["inShop"] = (what, tests) => {
    describe.skipIf(!shopIsHere)(`${what} ${skipped}`, tests);
  };
  return {
    folder,
    path,
    file,
    database,
    shop,
    inEach: (what, tests) => {
      describe(`${what} a file`, () => tests({ kind: "file", fresh: async () => file() }));
      inShop(`${what} a shop's database`, () => tests({ kind: "shop", fresh: served }));
    },
    inShop,
  };
}

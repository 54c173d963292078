/** A real PostgreSQL server for tests, from the system's own packages, in a folder of its own: started, killed, started again. */
import { execFileSync, spawn } from "node:child_process";
import { chmodSync, chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";

const mostTries = 100;
const packages = "/usr/lib/postgresql";
/** Folder of the newest server that is installed; undefined where none is. */
export const serverPrograms: string | undefined = existsSync(packages)
  ? readdirSync(packages)
      .sort((a, b) => Number(b) - Number(a))
      .map((v) => join(packages, v, "bin"))
      .find((bin) => existsSync(join(bin, "initdb")))
  : undefined;

export interface Shop {
  /** a database of its own, empty; its URL, by an account that may do anything */
  readonly database: () => Promise<string>;
  /** a database of its own, empty, with the two accounts of a shop that is set up: the one that owns it, and its server's */
  readonly accounts: () => Promise<{ readonly owner: string; readonly server: string }>;
  readonly query: (url: string, text: string) => Promise<pg.QueryResult>;
  /** the server's first process and all that it started, at once and without a word */
  readonly kill: () => Promise<void>;
  readonly start: () => Promise<void>;
  readonly end: () => Promise<void>;
}

const freePort = (): Promise<number> =>
  new Promise((done) => {
    const s = createServer().listen(0, "127.0.0.1", () => {
      const { port } = s.address() as { port: number };
      s.close(() => done(port));
    });
  });
/** Asks a database once, on a connection of its own. */
export const asQuery = async (url: string, text: string): Promise<pg.QueryResult> => {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await client.query(text);
  } finally {
    await client.end();
  }
};

/** The same database by the account that may do anything on its server. */
export const byRuler = (url: string): string => url.replace(/\/\/[^@]*@/, "//bench@");

/** Makes and starts a server that commits as a shop's does: synced. The superuser may not run one, so another account does where the tests run as root. */
export async function startShop(settings: Readonly<Record<string, string>> = {}): Promise<Shop> {
  if (serverPrograms === undefined) throw new Error("PostgreSQL is not installed (Debian: apt-get install postgresql)");
  const bin = serverPrograms;
  const root = process.getuid?.() === 0;
  const id = (flag: string): number => Number(execFileSync("id", [flag, "postgres"], { encoding: "utf8" }));
  const as = root ? { uid: id("-u"), gid: id("-g") } : {};
  const folder = mkdtempSync(join(tmpdir(), "shop-"));
  chmodSync(folder, 0o700);
  if (root) chownSync(folder, id("-u"), id("-g"));
  const data = join(folder, "data");
  const env = { ...process.env, LC_ALL: "C.UTF-8" };
  execFileSync(join(bin, "initdb"), ["-D", data, "-A", "trust", "-U", "bench", "--no-sync", "-E", "UTF8"], {
    ...as,
    env,
    cwd: folder,
    stdio: "ignore",
  });
  const port = await freePort();
  const given = { listen_addresses: "127.0.0.1", port: String(port), unix_socket_directories: folder, max_connections: "60", ...settings };
  const options = Object.entries(given).flatMap(([k, v]) => ["-c", `${k}=${v}`]);
  // a slow machine takes as long as it takes
  const urlOf = (name: string): string => `postgresql://bench@127.0.0.1:${port}/${name}?connect_timeout=1200`;
  let server: ReturnType<typeof spawn> | undefined;
  let said = "";
  /** whether it answers, once it does or has ended */
  const answers = async (): Promise<boolean> => {
    for (;;) {
      try {
        await asQuery(urlOf("postgres"), "select 1");
        return true;
      } catch {
        if (server?.exitCode !== null) return false;
        await new Promise((r) => setTimeout(r, 30));
      }
    }
  };
  const start = async (): Promise<void> => {
    // where the one before was killed, what it had started may take a while to notice, and holds its memory until then
    for (let tries = 0; tries < mostTries; tries++) {
      server = spawn(join(bin, "postgres"), ["-D", data, ...options], { ...as, env, cwd: folder, stdio: ["ignore", "ignore", "pipe"] });
      server.stderr?.on("data", (d) => {
        said = `${said}${d}`.slice(-2000);
      });
      if (await answers()) return;
      await new Promise((r) => setTimeout(r, 200));
    }
    throw new Error(`PostgreSQL did not start: ${said}`);
  };
  const stop = (signal: NodeJS.Signals): Promise<void> =>
    new Promise((done) => {
      if (!server || server.exitCode !== null || server.signalCode !== null) return done();
      server.once("exit", () => done());
      server.kill(signal);
    });
  await start();
  let n = 0;
  const made = async (owner: string): Promise<string> => {
    const name = `shop${++n}`;
    await asQuery(urlOf("postgres"), `create database ${name} owner ${owner}`);
    return urlOf(name);
  };
  return {
    database: () => made("bench"),
    accounts: async () => {
      for (const account of ["shop_owner", "shop_server"])
        await asQuery(urlOf("postgres"), `create role ${account} login`).catch((e) => {
          // made for another database of this server
          if ((e as { code?: unknown }).code !== "42710") throw e;
        });
      const url = await made("shop_owner");
      const by = (account: string): string => url.replace("//bench@", `//${account}@`);
      return { owner: by("shop_owner"), server: by("shop_server") };
    },
    query: asQuery,
    kill: () => stop("SIGKILL"),
    start,
    end: async () => {
      await stop("SIGQUIT");
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

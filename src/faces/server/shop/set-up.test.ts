/** docs/shop.md, line by line: from nothing to two benches, on a server of PostgreSQL's own in a folder of this test's. The system's own is never touched. */
import { execFileSync, spawn } from "node:child_process";
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:https";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Shop, serverPrograms, startShop } from "../../../store/shop.testdata";
import { cookieOf } from "./shop-app.testdata";

const skip = serverPrograms === undefined;
const root = join(import.meta.dirname, "..", "..", "..", "..");
const folder = mkdtempSync(join(tmpdir(), "set-up-"));
const page = readFileSync(join(root, "docs", "shop.md"), "utf8");
const part = page.slice(page.indexOf("## From nothing to two benches"), page.indexOf("### A shop whose server owns"));
/** The page's own commands, in order. */
const blocks = [...part.matchAll(/```sh\n([\s\S]*?)```/g)].map((m) => m[1]);
const freePort = (): Promise<number> =>
  new Promise((done) => {
    const s = createServer().listen(0, "127.0.0.1", () => {
      const { port } = s.address() as { port: number };
      s.close(() => done(port));
    });
  });

let shop: Shop | undefined;
let [database, port, metrics] = ["", 0, 0];
/** What stands on this machine in place of what only root of a new one may do: each says what it stands for. */
function stands(name: string, script: string): void {
  const file = join(folder, "bin", name);
  writeFileSync(file, `#!/bin/sh\n${script}\n`);
  chmodSync(file, 0o755);
}
/** The page's addresses and folders as they are here. */
const here = (text: string): string =>
  text
    .replaceAll("/opt/fettle", root)
    .replaceAll(/\/(?:etc|var\/lib)\/(?=fettle|systemd)/g, (m) => `${folder}${m}`)
    .replaceAll("192.168.1.10", "127.0.0.1")
    .replaceAll("@localhost/fettle", `@127.0.0.1:${new URL(database).port}/fettle`)
    .replaceAll(/(OWNERS-)?PASSWORD/g, "askedForTwice9")
    .replace("--metrics 9464", `--metrics ${metrics} --port ${port}`);
let printed = "";
beforeAll(async () => {
  if (skip) return;
  shop = await startShop();
  database = await shop.database();
  [port, metrics] = [await freePort(), await freePort()];
  mkdirSync(join(folder, "bin"));
  for (const f of ["etc/systemd/system", "var/lib/fettle"]) mkdirSync(join(folder, f), { recursive: true });
  const { hostname, port: at, username } = new URL(database);
  stands("apt-get", `for p in "$@"; do [ "$p" = install ] || dpkg -s "$p" >/dev/null || exit 1; done`);
  stands("su", `export PGHOST=${hostname} PGPORT=${at} PGUSER=${username}\nfor last in "$@"; do :; done\nexec sh -c "$last"`);
  stands("adduser", "exit 0");
  stands("chown", `test -e "$2"`);
  // systemd, in three lines: what the unit says is run with what its file says
  stands(
    "systemctl",
    `[ "$1" = enable ] || exit 0
unit=${folder}/etc/systemd/system/fettle.service
set -a; . "$(sed -n 's/^EnvironmentFile=//p' $unit)"; JOURNAL_STREAM=8:1; set +a
eval exec "$(sed -n 's/^ExecStart=//p' $unit | sed 's/ /\\n/g' | sed "s/.*/'&'/" | tr '\\n' ' ')" > ${folder}/journal 2>&1 &
echo $! > ${folder}/pid
for i in $(seq 600); do grep -q '"started"' ${folder}/journal && exit 0; sleep 0.1; done
cat ${folder}/journal; exit 1`,
  );
  for (const block of blocks) {
    // asked for at a terminal, where there is one; there is none here
    const child = spawn("bash", ["-e", "-c", here(block)], {
      cwd: folder,
      detached: true,
      env: {
        ...process.env,
        PATH: `${join(folder, "bin")}:${process.env.PATH}`,
        FETTLE_DATABASE_URL: "",
        FETTLE_WHO: "root",
        HOME: folder,
        XDG_DATA_HOME: folder,
      },
    });
    let said = "";
    for (const from of [child.stdout, child.stderr])
      from.on("data", (d) => {
        said += d;
      });
    child.stdin.end("askedForTwice9\naskedForTwice9\n");
    const code = await new Promise((done) => child.on("close", done));
    if (code !== 0) throw new Error(`${block}\nended with ${code}:\n${said}`);
    printed += said;
  }
});
afterAll(async () => {
  try {
    process.kill(Number(readFileSync(join(folder, "pid"), "utf8")), "SIGTERM");
  } catch {
    // it never started
  }
  await shop?.end();
  rmSync(folder, { recursive: true, force: true });
});
/** A request as a bench's browser makes it that trusts the shop's certificate, and no other. */
const ask = (
  path: string,
  { fields, json, cookie }: { readonly fields?: Readonly<Record<string, string>>; readonly json?: object; readonly cookie?: string } = {},
): Promise<Response> =>
  new Promise((done, failed) => {
    const body = fields ? String(new URLSearchParams(fields)) : json ? JSON.stringify(json) : undefined;
    const headers = {
      ...(body
        ? { origin: `https://127.0.0.1:${port}`, "content-type": fields ? "application/x-www-form-urlencoded" : "application/json" }
        : {}),
      ...(json ? { "x-fettle": "page" } : {}),
      ...(cookie ? { cookie } : {}),
    };
    const ca = readFileSync(join(folder, "etc/fettle/shop.crt"));
    const r = request({ host: "127.0.0.1", port, path, ca, headers, method: body ? "POST" : "GET" }, (a) => {
      const got: Buffer[] = [];
      a.on("data", (d) => got.push(d));
      a.on("end", () => {
        const said = Object.entries(a.headers).flatMap(([k, v]) => (v === undefined ? [] : [[k, String(v)] as [string, string]]));
        const status = a.statusCode ?? 0;
        done(new Response(status === 304 ? null : Buffer.concat(got), { status, headers: said }));
      });
    });
    r.on("error", failed);
    r.end(body);
  });

describe.skipIf(skip)("a shop set up as its page says (skipped where PostgreSQL is not installed)", () => {
  it("stands after the page's own lines, and lets in two benches with accounts, who see each other's work", async () => {
    expect(blocks.length).toBeGreaterThanOrEqual(6);
    const codes = printed.match(/\b(\w{5}-){4}\w{5}\b/g) ?? [];
    expect(codes).toHaveLength(2);
    const cookies: string[] = [];
    for (const [i, name] of ["Ann", "Ben"].entries()) {
      const password = `${name}'s four brass knobs`;
      expect((await ask("/password", { fields: { code: codes[i], name: "", password } })).status).toBe(200);
      cookies.push(cookieOf(await ask("/sign-in", { fields: { name, password } })));
    }
    const [ann, ben] = cookies;
    expect((await ask("/api/jobs", { json: { name: "Mill", pattern: "nine-tube-bandspread" }, cookie: ann })).status).toBe(200);
    for (const [cookie, note] of [
      [ann, "by the keeper"],
      [ben, "by the bench"],
    ])
      expect((await ask("/api/jobs/Mill/done", { json: { step: "01", note }, cookie })).status).toBe(200);
    const { document } = await (await ask("/api/jobs/Mill", { cookie: ben })).json();
    expect(document.entries.map((e: { who: string; note: string }) => [e.who, e.note])).toEqual([
      ["Ann", "by the keeper"],
      ["Ben", "by the bench"],
    ]);
    expect([(await ask("/people", { cookie: ann })).status, (await ask("/people", { cookie: ben })).status]).toEqual([200, 403]);
    expect((await ask("/api/jobs")).status).toBe(401);
    const { rows } = await shop!.query(database.replace(/[^/]+$/, "fettle"), "select count(*) as n from fettle.entry");
    expect(Number(rows[0].n)).toBe(2);
  });
  it("is served by an account that can't alter its tables, change an entry or take a row off the trail; the one that owns them made them", async () => {
    expect(printed).toContain("Made the tables in the shop's database (fettle at 127.0.0.1");
    expect(printed).toContain(
      "fettle may read them and add to them. It can't alter them, nor change or remove an entry or a row of the trail.",
    );
    expect(readFileSync(join(folder, "journal"), "utf8")).not.toContain('"warning"');
    expect(await (await fetch(`http://127.0.0.1:${metrics}/health`)).json()).toEqual({ status: "ok" });
    const as = (account: string): string => database.replace(/\/\/[^@]*@/, `//${account}@`).replace(/[^/]+$/, "fettle");
    const { rows } = await shop!.query(as("fettle_owner"), "select distinct tableowner from pg_tables where schemaname = 'fettle'");
    expect(rows).toEqual([{ tableowner: "fettle_owner" }]);
    for (const text of [
      "update fettle.entry set who = 'x'",
      "delete from fettle.entry",
      "update fettle.audit set who = 'x'",
      "delete from fettle.audit",
      "drop trigger audit_changed on fettle.audit",
      "alter table fettle.audit disable trigger all",
    ])
      await expect(shop!.query(as("fettle"), text), text).rejects.toMatchObject({ code: "42501" });
  });
  it("keeps what is secret for itself alone, logs without it, counts, and has made its backup", async () => {
    for (const f of ["shop.key", "shop.env", "owner.env"])
      expect(execFileSync("stat", ["-c", "%a", join(folder, "etc/fettle", f)], { encoding: "utf8" }).trim()).toBe("600");
    const journal = readFileSync(join(folder, "journal"), "utf8");
    expect(journal).toContain('"route":"POST /sign-in"');
    expect(journal).toContain("There is no keeper yet. At this machine: fettle account");
    for (const secret of ["brass", "askedForTwice9", ...(printed.match(/\b(\w{5}-){4}\w{5}\b/g) ?? [])])
      expect(journal).not.toContain(secret);
    expect(await (await fetch(`http://127.0.0.1:${metrics}/metrics`)).text()).toMatch(/fettle_sign_ins_total\{result="in"\} 2/);
    expect(readdirSync(join(folder, "var/lib/fettle")).filter((f) => /^\d{4}-\d\d-\d\d\.db(\.sha256)?$/.test(f))).toHaveLength(2);
  });
});

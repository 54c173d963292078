import {
  chmodSync,
  existsSync,
  linkSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { unzipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { version } from "../../../package.json";
import { commandLine } from "./main";
import { writeBytes, writeOutput } from "./output";

const folder = mkdtempSync(join(tmpdir(), "cli-keeping-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const store = join(folder, "jobs.db");
const at = (name: string) => join(folder, name);
const worldOf = (out: string[], err: string[], path = store) => ({
  out: (t: string) => void out.push(t),
  err: (t: string) => void err.push(t),
  progress: () => undefined,
  page: { columns: 120, bold: (s: string) => s },
  now: () => "2026-02-01T10:00:00.000Z",
  env: { FETTLE_STORE: path },
});
const runAt = async (path: string, ...argv: string[]) => {
  const out: string[] = [];
  const err: string[] = [];
  const code = await commandLine(worldOf(out, err, path)).run(argv);
  return { code, out: out.join("\n"), err: err.join("\n") };
};
const run = (...argv: string[]) => runAt(store, ...argv);
const world = worldOf([], []);
const raw = (sql: string, path = store) => {
  const db = new Database(path);
  db.exec(sql);
  db.close();
};
beforeAll(async () => {
  await run("new", "Mill", "--pattern", "nine-tube-bandspread");
});

it("says which version it is", async () => expect(await run("--version")).toMatchObject({ code: 0, out: version }));

describe("an output", () => {
  it("never lands on the store, by whatever name it is called", async () => {
    const before = readFileSync(store);
    linkSync(store, at("hard"));
    symlinkSync(store, at("soft"));
    symlinkSync(folder, at("folder"));
    const places = [store, `${store}-wal`, `${store}-shm`, at("hard"), at("soft"), join(at("folder"), "jobs.db")];
    for (const place of places) {
      for (const argv of [
        ["export", "Mill", place],
        ["cards", "Mill", "-o", place],
        ["parts", "Mill", "--csv", place],
        ["report", "Mill", "-o", place],
        ["backup", place],
      ])
        expect((await run(...argv, "--replace")).err, argv.join(" ")).toContain("the store, with all your jobs in it");
    }
    rmSync(at("hard"));
    rmSync(at("soft"));
    rmSync(at("folder"));
    expect(readFileSync(store).equals(before)).toBe(true);
    expect(existsSync(`${store}-wal`)).toBe(false);
  });
  it("replaces a file only by the word", async () => {
    writeFileSync(at("kept.zip"), "a good backup");
    expect((await run("export", "Mill", at("kept.zip"))).err).toContain("--replace");
    expect(readFileSync(at("kept.zip"), "utf8")).toBe("a good backup");
    expect((await run("export", "Mill", at("kept.zip"), "--replace")).code).toBe(0);
    expect(Object.keys(unzipSync(readFileSync(at("kept.zip"))))).toContain("job.json");
  });
  it("is whole or not there: what was there before stays, and nothing is left beside it", async () => {
    writeFileSync(at("good.zip"), "a good backup");
    chmodSync(at("good.zip"), 0o640);
    const before = readdirSync(folder);
    const full = Object.assign(new Error("full"), { code: "ENOSPC" });
    const half = (file: string) => {
      writeFileSync(file, "half");
      throw full;
    };
    await expect(writeOutput(world, { path: at("good.zip"), replace: true }, half)).rejects.toThrow("room on the disk");
    await expect(writeOutput(world, { path: at("new.zip"), replace: false }, half)).rejects.toThrow("room on the disk");
    expect(readFileSync(at("good.zip"), "utf8")).toBe("a good backup");
    expect(readdirSync(folder)).toEqual(before);
    await writeBytes(world, { path: at("good.zip"), replace: true }, "a better one");
    expect(statSync(at("good.zip")).mode & 0o777).toBe(0o640);
  });
  it("leaves alone a file that came there while it was made", async () => {
    const late = writeOutput(world, { path: at("late"), replace: false }, (file) => {
      writeFileSync(file, "mine");
      writeFileSync(at("late"), "somebody else's");
    });
    await expect(late).rejects.toThrow("exists");
    expect(readFileSync(at("late"), "utf8")).toBe("somebody else's");
  });
});

describe("taking back", () => {
  it("takes the last entry of one's own with all that was made of it, or the one that is named, and says what falls", async () => {
    await run("set", "Mill", "line.voltage=121 V", "--why", "first");
    await run("zero-beat", "Mill", "20", "3.6 MHz", "--band", "80");
    raw(
      "insert into entry (job_id, seq, id, kind, at, who, body_json) select job_id, 900, 'theirs', kind, at, 'somebody else', body_json from entry where kind = 'values'",
    );
    expect((await run("undo", "Mill", "--dry-run")).out).toMatch(/would go:\n.* reading /);
    expect((await run("undo", "Mill")).out).toMatch(/stays in the history:\n.* reading /);
    expect((await run("undo", "Mill")).out).toContain("first");
    expect((await run("undo", "Mill")).err).toContain("name an entry");
    expect((await run("undo", "Mill", "theirs")).out).toContain("theirs");
    expect((await run("undo", "Mill", "theirs")).err).toContain("has not been taken back");
    expect((await run("undo", "Mill", "nobody")).err).toContain("--entries lists them");
  });
});

describe("cards on the command line", () => {
  it("keep what is not named, and empty every cell that rows from a file leave out", async () => {
    await run("fill", "Mill", "voltage-chart", "row 1: Tube=V1", "row 1: Measured V=250", "row 2: Tube=V2", "Meter=20 kohm/V");
    writeFileSync(at("rows.csv"), 'Tube,Remark\nV9,"low, and\nnoisy"\n');
    expect((await run("fill", "Mill", "voltage-chart", "--rows", at("rows.csv"))).code).toBe(0);
    await run("export", "Mill", at("cards.zip"));
    const { entries } = JSON.parse(Buffer.from(unzipSync(readFileSync(at("cards.zip")))["job.json"]).toString());
    expect(entries.findLast((e: { kind: string }) => e.kind === "form").fields).toEqual({
      "row 1: Tube": "V9",
      "row 1: Measured V": "",
      "row 2: Tube": "",
      "row 1: Remark": "low, and\nnoisy",
    });
    writeFileSync(at("rows.csv"), "Tube,Tube\nV9,V8\n");
    expect((await run("fill", "Mill", "voltage-chart", "--rows", at("rows.csv"))).err).toContain("each once");
    expect((await run("fill", "Mill", "voltage-chart", "Meter=20 kohm/V")).err).toContain("a field with a new value");
  });
});

describe("what names from outside may do", () => {
  it("a table keeps each of its columns, whatever they are headed", async () => {
    writeFileSync(at("t.csv"), "plate,plate,constructor,__proto__\n1,2,3,4\n5,6,7,8\n");
    expect((await run("read", "Mill", at("t.csv"), "--as", "table", "--state", "as-found")).code).toBe(0);
    await run("export", "Mill", at("t.zip"));
    const parts = unzipSync(readFileSync(at("t.zip")));
    const csv = Object.keys(parts).find((p) => p.startsWith("readings/") && Buffer.from(parts[p]).toString().includes("plate"))!;
    expect(Buffer.from(parts[csv]).toString()).toBe("plate,plate (2),constructor,__proto__ (2)\n1,2,3,4\n5,6,7,8\n");
  });
  it.each([
    [["done", "Mill", "toString"], "the number of a step"],
    [["set", "Mill", "__proto__=1"], "a path that a question reads"],
    [["set", "Mill", "line.constructor=1"], "a path that a question reads"],
    [["instrument", "Mill", "", "--kind", "volts"], "a name that is not empty"],
    [["sheet", "dc-block", "--try", "constructor=1"], "an input of the sheet"],
    [["fill", "Mill", "intake", "toString=1"], "one of "],
    [["set", "Mill", "line.voltage=121 V u 1e308 kV"], "too large"],
    [["work", "Mill", "constructor"], "one of "],
    [["mark", "__proto__", "red"], "one of bands"],
    [["mark", "bands", "constructor", "red", "red"], "one of black"],
  ])("%j is refused, and nothing of it recorded", async (argv, said) => {
    const before = (await run("show", "Mill", "--entries")).out;
    const r = await run(...argv);
    expect(r.code).toBe(2);
    expect(r.err).toContain(said);
    expect((await run("show", "Mill", "--entries")).out).toBe(before);
  });
});

describe("a job from elsewhere", () => {
  it("says so in every entry, and what could not stand in this set is kept aside and named", async () => {
    const own = at("from.db");
    await runAt(own, "new", "Far", "--pattern", "five-tube-live");
    await runAt(own, "set", "Far", "line.voltage=121 V", "supplies.rectifier=another", "--why", "told");
    raw("update entry set body_json = replace(body_json, 'supplies.rectifier', 'supplies') where kind = 'fact'", own);
    await runAt(own, "export", "Far", at("far.zip"));
    const taken = await run("import", at("far.zip"));
    expect(taken.out).toMatch(/proves nothing about safety here[\s\S]*Kept aside and not applied: 1\./);
    const shown = (await run("show", "Far", "--entries")).out;
    expect(shown).toMatch(/values +brought in +line\.voltage=121 V, stated \(told\)/);
    expect(shown).toContain('can\'t be read: supplies: read "supplies", expected the path of a quantity or fact');
    expect((await run("show", "Far")).out).toContain("Brought in from elsewhere on 1 February 2026");
    expect((await run("undo", "Far")).err).toContain("name an entry");
  });
});

describe("the store as a whole", () => {
  it("is copied, looked through, and mended after a backup; what can't be read is said in a line and hides nothing", async () => {
    const own = at("own.db");
    await runAt(own, "new", "A", "--pattern", "five-tube-live");
    await runAt(own, "set", "A", "line.voltage=121 V", "--why", "kept");
    expect(await runAt(own, "check-store")).toMatchObject({ code: 0, out: expect.stringContaining("is whole") });
    expect((await runAt(own, "backup", at("b.db"))).out).toContain("1 job,");
    expect(statSync(at("b.db")).mode & 0o777).toBe(0o600);
    expect((await runAt(at("b.db"), "show", "A", "--entries")).out).toContain("kept");
    raw("insert into entry (job_id, seq, id, kind, at, who, body_json) select job_id, 50, 'bad', kind, at, who, '{' from entry", own);
    const shown = await runAt(own, "show", "A", "--entries");
    expect(shown.out).toMatch(/kept[\s\S]*bad {2}can't be read/);
    expect(shown.err).toContain('One entry of "A" can\'t be read');
    expect((await runAt(own, "export", "A", at("a.zip"))).out).toContain("unreadable.json");
    const looked = await runAt(own, "check-store");
    expect(looked).toMatchObject({ code: 1, out: expect.stringContaining("Nothing was changed") });
    const mended = await runAt(own, "check-store", "--mend");
    expect(mended.out).toContain("Set aside: 1. Nothing was deleted.");
    expect(readdirSync(folder).filter((f) => f.startsWith("own.db.before-mending-"))).toHaveLength(1);
    expect(await runAt(own, "check-store")).toMatchObject({ code: 0, out: expect.stringContaining("1 were set aside earlier") });
    expect((await runAt(own, "show", "A", "--entries")).out).toContain("bad  can't be read");
  });
  it("loses a job for good only by its name said twice, and its zip is written first unless told otherwise", async () => {
    const own = at("erase.db");
    for (const name of ["Gone", "Bare", "Stays"]) await runAt(own, "new", name, "--pattern", "five-tube-live");
    await runAt(own, "fill", "Gone", "intake", "Owner=somebody");
    for (const said of [[], ["--confirm", "gone"]]) {
      expect(await runAt(own, "erase", "Gone", ...said)).toMatchObject({ code: 2, err: expect.stringContaining('again, "Gone"') });
    }
    writeFileSync(at("there.zip"), "mine");
    expect((await runAt(own, "erase", "Gone", "--confirm", "Gone", "--export", at("there.zip"))).err).toContain("exists");
    expect((await runAt(own, "jobs")).out).toContain("Gone");
    const erased = await runAt(own, "erase", "Gone", "--confirm", "Gone", "--export", at("gone.zip"));
    expect(erased.out).toMatch(/gone\.zip first[\s\S]*Erased "Gone": 1 entries[\s\S]*Earlier backups and exports still hold it/);
    expect(await runAt(own, "erase", "Bare", "--confirm", "Bare", "--no-export")).toMatchObject({ code: 0 });
    expect((await runAt(own, "jobs")).out).toMatch(/^ *Stays/);
    expect((await runAt(own, "erase", "Gone", "--confirm", "Gone")).err).toContain("one of the jobs Stays");
    expect((await runAt(own, "import", at("gone.zip"))).code).toBe(0);
    expect((await runAt(own, "show", "Gone", "--entries")).out).toContain("form");
  });
  it("explains a job that is here under another name already", async () => {
    const own = at("names.db");
    await runAt(own, "new", "First", "--pattern", "five-tube-live");
    await runAt(own, "export", "First", at("first.zip"));
    raw("update job set name = 'Renamed'", own);
    expect((await runAt(own, "import", at("first.zip"))).err).toContain('already in the store, as "Renamed"');
    expect((await runAt(own, "import", at("first.zip"), "--name", "Second")).code).toBe(0);
  });
});

/** Accounts, owners' links and the trail as they are kept at a terminal, on a store in a file. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, describe, expect, it } from "vitest";
import { commandLine } from "./main";

const folder = mkdtempSync(join(tmpdir(), "shop-line-"));
const path = join(folder, "jobs.db");
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let now = "2026-02-01T08:00:00.000Z";
async function fettle(...argv: readonly string[]) {
  const [out, err]: [string[], string[]] = [[], []];
  const code = await commandLine({
    out: (t) => void out.push(t),
    err: (t) => void err.push(t),
    progress: () => undefined,
    page: { columns: 200, bold: (s: string) => s },
    now: () => now,
    env: { FETTLE_STORE: path, FETTLE_WHO: "keeper at the machine" },
  }).run(argv);
  return { code, out: out.join("\n"), err: err.join("\n") };
}

describe.sequential("a shop kept at a terminal", () => {
  it("makes accounts, each with a code that is told once, and lists them", async () => {
    expect((await fettle("accounts")).out).toContain("No accounts yet");
    const made = await fettle("account", "Ann", "--role", "keeper");
    expect([made.code, made.out]).toEqual([0, expect.stringMatching(/Account made: Ann, keeper\.\n\n {2}(\w{5}-){4}\w{5}\n/)]);
    expect((await fettle("account", "Ben", "--role", "bench")).code).toBe(0);
    const { out } = await fettle("accounts");
    expect(out).toMatch(/Ann +keeper +no password yet +not signed in\n +Ben +bench/);
    expect(out).not.toContain(/(\w{5}-){4}\w{5}/.exec(made.out)?.[0]);
    expect((await fettle("account", "ben", "--shut")).out).toContain("Changed");
    expect((await fettle("accounts")).out).toMatch(/Ben +bench +shut/);
    for (const [argv, said] of [
      [["account", "Bem", "--code"], "Ben"],
      [["account", "Ann"], "--role"],
      [["account", "Ann", "--shut", "--reopen"], "one of the two"],
    ] as const) {
      const r = await fettle(...argv);
      expect([r.code, r.err]).toEqual([2, expect.stringContaining(said)]);
    }
  });
  it("makes an owner's link, lists it and withdraws it", async () => {
    await fettle("new", "Mill", "--pattern", "nine-tube-bandspread");
    const made = await fettle("owner-link", "Mill", "--days", "7", "--shop", "https://shop.example/");
    expect(made.out).toMatch(/https:\/\/shop\.example\/view\/[\w-]{43}\n/);
    expect(made.out).toContain("until 8 February 2026, 08:00 UTC");
    const [, id] = /--withdraw (\w+)/.exec(made.out) ?? [];
    expect((await fettle("owner-links")).out).toMatch(/Mill +until 8 Feb 2026, 08:00 UTC/);
    expect((await fettle("owner-links", "--withdraw", id)).out).toContain("withdrawn");
    expect((await fettle("owner-link", "Mill", "--days", "0")).err).toContain("a day at least");
    expect((await fettle("owner-link", "Mil")).err).toContain("Mill");
    now = "2026-03-01T08:00:00.000Z";
  });
  it("tells the trail of a job that is erased at the terminal", async () => {
    await fettle("new", "Pier", "--pattern", "nine-tube-bandspread");
    expect((await fettle("erase", "Pier", "--confirm", "pier", "--no-export")).code).toBe(2);
    expect((await fettle("erase", "Pier", "--confirm", "Pier", "--no-export")).code).toBe(0);
    expect((await fettle("audit")).out).toMatch(/keeper at the machine +job erased: 0 entries, 0 files +Pier\n/);
    expect((await fettle("audit")).out.match(/job erased/g)).toHaveLength(1);
  });
  it("keeps everything for ever, until a keeper says how long, sees what is past its time and removes that", async () => {
    expect((await fettle("keep-for")).out).toMatch(/jobs +for ever .*\n +recordings +for ever /);
    expect((await fettle("clear-out")).out).toBe("Nothing is past its time.");
    expect((await fettle("keep-for", "links", "2", "days")).out).toMatch(/links +2 days +Owners' links that are over/);
    for (const [argv, said] of [
      [["keep-for", "links"], "for ever"],
      [["keep-for", "links", "soon"], "10 years"],
      [["keep-for", "trail", "2", "days"], "jobs"],
    ] as const) {
      const r = await fettle(...argv);
      expect([r.code, r.err]).toEqual([2, expect.stringContaining(said)]);
    }
    const { out } = await fettle("clear-out");
    const [, digits] = /fettle clear-out --confirm (\w{8})\n/.exec(out) ?? [];
    expect(out).toContain("Owners' links that are over: 1, the oldest of 8 February 2026\nNothing has been removed.");
    expect((await fettle("owner-links")).out).toContain("withdrawn");
    expect((await fettle("clear-out", "--confirm", "01234567")).err).toContain("list it again");
    expect((await fettle("clear-out", "--confirm", digits)).out).toContain("Removed for good:\n  Owners' links that are over: 1,");
    expect((await fettle("owner-links")).out).toContain("No owner has a link");
    expect((await fettle("audit")).out).toMatch(/keeper at the machine +owners' links that were over cleared out: 1 *\n/);
  });
  it("prints the trail, judges it, and finds what was taken out behind its back", async () => {
    const whole = await fettle("audit");
    expect(whole.code).toBe(0);
    expect(whole.out).toMatch(/1 +1 Feb 2026, 08:00 +keeper at the machine +account made: keeper +Ann\n/);
    const [, noted] = /(\d+:[0-9a-f]{16}),/.exec(whole.out) ?? [];
    expect((await fettle("audit", "--noted", noted, "--last", "0")).out).toContain("Whole");
    expect((await fettle("audit", "--noted", "row 3")).err).toContain("--noted");
    const raw = new Database(path);
    raw.exec("drop trigger audit_removed; delete from audit where seq = 2");
    raw.close();
    const torn = await fettle("audit");
    expect([torn.code, torn.out]).toEqual([1, expect.stringContaining("row 2 was taken out")]);
  });
});

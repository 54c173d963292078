/** What others have typed into a job is shown by every command, and obeyed by no terminal. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demoSet } from "../../desk/demo";
import type { Entry } from "../../job/document";
import { openSqlite } from "../../store/sqlite";
import { plainly } from "../report/pdf";
import { commandLine } from "./main";

const folder = mkdtempSync(join(tmpdir(), "plain-"));
const path = join(folder, "jobs.db");
const evil = "set\u001b[2J\u0007\u009b31m\u202eedis\u2066\u200b\u2028";
const unseen = /(?![\t\n])[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u;
async function run(env: Record<string, string>, ...argv: string[]) {
  const said: string[] = [];
  const put = (t: string) => void said.push(t);
  const world = {
    out: put,
    err: put,
    progress: put,
    page: { columns: 90, bold: (s: string) => s },
    now: () => "2026-02-01T10:00:00.000Z",
    env,
  };
  const code = await commandLine(world).run(argv);
  return { code, said: said.join("\n") };
}
beforeAll(async () => {
  const store = await openSqlite(path);
  const set = demoSet();
  const signed = { at: "2026-02-01T00:00:00.000Z", who: evil };
  const entries: Entry[] = [
    {
      ...signed,
      id: "w",
      kind: "work",
      work: "cable-fitted",
      subject: "fittings.qm",
      note: evil,
      makes: [{ target: "20", makes: "redo", task: evil, why: evil }],
      rests: [],
    },
    { ...signed, id: "d", kind: "done", step: "01", note: evil },
    { ...signed, id: "f", kind: "form", form: "intake", fields: { Owner: evil } },
  ];
  const named = {
    ...set,
    title: evil,
    fittings: set.fittings.map((f) => ({ ...f, label: evil })),
    tubes: set.tubes.map((t) => ({ ...t, function: evil })),
  };
  await store.create({ id: "j", name: "Set", created: signed.at, set: named, entries });
  await store.close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it.each([
  [["jobs"]],
  [["show", "Set"]],
  [["show", "Set", "--entries"]],
  [["next", "Set", "--all"]],
  [["next", "Set", "--json"]],
  [["sheet", "cable-load", "Set", "--draws", "200"]],
  [["sheet", "cable-load", "Set", "--draws", "200", "--json"]],
  [["sheet", "suspects", "Set", "--inputs"]],
  [["proof", "Set"]],
  [["show", evil]],
  [["sheet", "cable-load", "Set", "--try", `cableLength=${evil}`]],
  [[evil]],
])("%j", async (argv) => {
  const { said } = await run({ FETTLE_STORE: path }, ...argv);
  expect(said.length).toBeGreaterThan(10);
  expect(said).not.toMatch(unseen);
});
it("stands in them all the same, to be seen for what it is", async () => {
  expect((await run({ FETTLE_STORE: path }, "jobs")).said).toContain("set\\u001b[2J\\u0007\\u009b31m\\u202eedis");
  const json = JSON.parse((await run({ FETTLE_STORE: path }, "next", "Set", "--all", "--json")).said) as { steps: { task: string }[] };
  expect(json.steps.some((i) => i.task.endsWith(evil.slice(1)))).toBe(true);
});
it("prints on paper without turning it, footers and all", () => {
  const page = plainly({ content: [{ text: ["a\u202eb"] }], footer: () => ({ text: "c\u2066d" }), date: new Date(0) });
  expect(page.content).toEqual([{ text: ["a\\u202eb"] }]);
  expect(page.footer()).toEqual({ text: "c\\u2066d" });
  expect(page.date).toEqual(new Date(0));
});
it("prints on paper no number parted from its unit, and leaves a drawing's own letters as they are", () => {
  const svg = '<path d="M 10 20 V 30"/>';
  const page = plainly({
    content: [{ ul: ["Read 103 V"] }, { table: { body: [["455 kHz", { text: ["at 20 ", "pF"] }]] } }, { svg }],
    footer: () => "12 mm",
  });
  expect(page.content).toEqual([{ ul: ["Read 103\u00a0V"] }, { table: { body: [["455\u00a0kHz", { text: ["at 20 ", "pF"] }]] } }, { svg }]);
  expect(page.footer()).toBe("12\u00a0mm");
});
it("tells what fails in one line, and the trace to whoever asks for it", async () => {
  const folderAsStore = { FETTLE_STORE: folder };
  const plain = await run(folderAsStore, "jobs");
  expect(plain.code).toBe(2);
  expect(plain.said).not.toMatch(/\n|^\s+at /m);
  expect((await run({ ...folderAsStore, FETTLE_TRACE: "1" }, "jobs")).said).toMatch(/^\s+at /m);
});

/** Bad values on the command line, in its own program: a line that a person can act on, and the jobs stay readable. */
import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { demoSet, demoSweepCsv } from "../../src/desk/demo";
import { commandLine } from "../../src/faces/cli/main";
import { forms } from "../../src/job/forms";
import { workKinds } from "../../src/job/ripple";
import { sheets } from "../../src/sheets/index";
import { checkStore } from "../../src/store/check";
import { openSqlite } from "../../src/store/sqlite";
import { folder, nasty, type Part, part, some, troubles } from "./kit";

const slowestMs = 20_000;
/** Where a bad value goes. */
const hole = "?";
const lines: readonly (readonly string[])[] = [
  ["sheet", hole, "S"],
  ["sheet", "dial", "S", "--at", hole],
  ["sheet", "q-multiplier", "S", "--try", `cableLength=${hole}`],
  ["sheet", "converter", "S", "--draws", "200", "--try", hole],
  ["sheet", "b-plus", "S", "--draws", hole, "--seed", "2"],
  ["sheet", "b-plus", "S", "--draws", "200", "--seed", hole],
  ["next", hole],
  ["new", hole, "--pattern", "nine-tube-bandspread"],
  ["new", "N", "--pattern", hole],
  ...["cans", "tubes", "line", "intermediate", "bands"].map((f) => ["new", "N", "--field", `${f}=${hole}`]),
  ["new", "N", "--field", hole],
  ["copy", "S", hole],
  ["copy", hole, "C"],
  ["show", hole],
  ["export", "S", hole],
  ["import", hole],
  ["import", "sweep.csv", "--name", hole],
  ...["--step", "--stage", "--instrument", "--line", "--unit", "--band", "--set-point", "--thermal"].map((o) => [
    "read",
    "S",
    "sweep.csv",
    "--as",
    "if-sweep",
    "--state",
    "as-found",
    "--no-fit",
    o,
    hole,
  ]),
  ["read", "S", "sweep.csv", "--as", hole, "--state", "as-found"],
  ["read", "S", hole, "--as", "table", "--state", "as-found"],
  ["zero-beat", "S", hole, "3.6 MHz", "--band", "80"],
  ["zero-beat", "S", "40", hole, "--band", "80"],
  ["zero-beat", "S", "40", "3.6 MHz", "--band", hole],
  ["zero-beat", "S", "40", "3.6 MHz", "--band", "80", "--set-point", hole],
  ["take-back", "S", hole, "--band", "80"],
  ["take-back", "S", "1", "--band", hole],
  ["set", "S", hole],
  ["set", "S", `${hole}=1 V`],
  ["set", "S", `line.today=${hole}`, "--origin", "measured"],
  ["set", "S", `supplies.secondaryVoltage=${hole}`, "--why", hole],
  ["set", "S", `line.kind=${hole}`],
  ["fill", "S", hole, "x=1"],
  ["fill", "S", "voltage-chart", hole],
  ["fill", "S", "voltage-chart", `Line volts=${hole}`],
  ["fill", "S", "voltage-chart", `row ${hole}: Tube=V1`],
  ["fill", "S", "voltage-chart", `row 1: Chart V=${hole}`],
  ["fill", "S", "voltage-chart", "--rows", hole],
  ["instrument", "S", hole, "--kind", "DC volts"],
  ["instrument", "S", "m", "--kind", hole, "--ohms-per-volt", hole, "--range", hole],
  ["work", "S", hole],
  ["work", "S", "cable-fitted", "--at", hole],
  ["work", "S", "tube-replaced", "--at", hole, "--note", hole],
  ["work", "S", "cable-fitted", "--at", "fittings.qm", "--now", `fittings.qm.cableLength=${hole}`],
  ["chassis", "S", hole],
  ["chassis", "S", "isolated", "--ohms", hole, "--meter", hole, "--how", hole, "--confirm", "isolated"],
  ["done", "S", hole],
  ["done", "S", "01", "--note", hole],
  ["correct", "S", hole, "--why", "x"],
  ["undo", "S", hole],
  ["cards", "S", "-o", "out.pdf", "--card", hole],
  ["dial-card", "S", hole, "-o", "out.pdf"],
  ["dial-card", "S", "80", "-o", "out.pdf", "--step", hole],
  ["dial-scale", "S", hole, "-o", "out.svg"],
  ["dial-scale", "S", "80", "-o", hole],
  ["mark", hole, hole],
  ["mark", "resistor", hole],
  ["works", hole],
  ["backup", hole],
  ["account", hole, "--role", "bench"],
  ["account", hole, "--role", hole, "--code"],
  ["owner-link", hole, "--days", hole, "--shop", hole],
  ["owner-link", "S", "--days", "7", "--shop", hole],
  ["owner-links", "--withdraw", hole],
  ["audit", "--last", hole],
  ["audit", "--noted", hole],
  ["serve", "--host", hole, "--port", hole],
  ["serve", "--certificate", hole, "--key", hole, "--name", hole],
  [hole],
  [hole, hole, hole],
];
const never = ["open", "demo", "help"];

export const commands: Part = async (share) => {
  const t = troubles();
  const place = folder();
  const cwd = process.cwd();
  const path = join(place, "jobs.db");
  process.chdir(place);
  writeFileSync("sweep.csv", demoSweepCsv());
  const store = await openSqlite(path);
  await store.create({ id: "s", name: "S", created: "2026-02-01T00:00:00.000Z", set: demoSet(), entries: [] });
  await store.close();
  const known = fc.constantFrom(
    ...sheets.map((s) => s.id),
    ...workKinds.map((w) => w.id),
    ...forms.map((f) => f.id),
    "S",
    "80",
    "01",
    "fittings.qm",
  );
  const value = fc.oneof({ weight: 9, arbitrary: nasty }, { weight: 1, arbitrary: known });
  const tried = some(fc.tuple(fc.constantFrom(...lines), fc.tuple(value, value, value)), part(share, 2000));
  let [count, taken, slowestOf] = [0, 0, 0];
  for (const [line, values] of tried) {
    let v = 0;
    const argv = line.map((w) => w.replace(hole, () => values[v++ % 3]));
    if (never.includes(argv[0])) continue;
    const example = JSON.stringify(argv.map((a) => a.slice(0, 80)));
    const said: string[] = [];
    const say = (x: string) => void said.push(x);
    const started = performance.now();
    count++;
    let code = -1;
    try {
      const page = { columns: 100, bold: (s: string) => s };
      code = await commandLine({
        out: say,
        err: say,
        progress: () => undefined,
        page,
        now: () => "2026-02-01T00:00:00.000Z",
        env: { FETTLE_STORE: path },
      }).run(argv);
    } catch (e) {
      t.add(`${line[0]}: thrown ${(e as Error).name} ${(e as Error).message.slice(0, 60)}`, example);
      continue;
    }
    const all = said.join("\n");
    const ms = performance.now() - started;
    slowestOf = Math.max(slowestOf, ms);
    if (code === 0) taken++;
    if (ms > slowestMs) t.add(`${line[0]}: slow`, `${Math.round(ms)} ms, ${example}`);
    if (/A defect of Fettle|\n\s+at .*:\d+:\d+/.test(all)) t.add(`${line[0]}: a defect`, `${example} said ${all.slice(0, 160)}`);
    else if (![0, 1, 2].includes(code)) t.add(`${line[0]}: ended with ${code}`, example);
    else if (code === 2 && all.trim() === "") t.add(`${line[0]}: refused without a word`, example);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
    if (/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/.test(all))
      t.add(`${line[0]}: a character that steers a terminal`, example);
  }
  for (const w of checkStore(path).wrong) t.add("the store", w.says);
  const after = await openSqlite(path);
  if ((await after.load("S"))?.unreadable.length !== 0) t.add("the job", "an entry that can't be read");
  await after.close();
  process.chdir(cwd);
  rmSync(place, { recursive: true, force: true });
  return {
    attack: "bad values on the command line, every command but the page's and the demo's",
    count,
    said: `${taken} taken, the others refused in words; slowest ${(slowestOf / 1000).toFixed(1)} s; every entry reads back`,
    broke: t.lines(),
  };
};

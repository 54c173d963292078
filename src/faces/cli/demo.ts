import { mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { nextSteps } from "../../job/next";
import { sheets } from "../../sheets/index";
import { orThrow } from "../../units/issue";
import { ask, type Desk, openJob, planned } from "../shared/actions";
import { demoInvented, demoName, demoSet, demoSweepCsv } from "../shared/demo";
import { readFileIn } from "../shared/read-in";
import { reportPdf } from "../shared/reporting";
import { answerText, fitText, nextText } from "./render";
import { type World, writeBytes } from "./world";

/** The questions of the demo's scenario. */
const asked = sheets.filter((s) => ["if-response", "dc-block", "cable-load", "q-multiplier"].includes(s.id));

/** The main job on the demo set: make the job, read a sweep, fit the strip, answer, record the cable, say what is next, write the report. */
export async function runDemo(desk: Desk, folder: string, world: World): Promise<void> {
  const { out, page } = world;
  const taken = new Set((await desk.store.list(demoName)).jobs.map((j) => j.name));
  let name = demoName;
  for (let i = 2; taken.has(name); i++) name = `${demoName} ${i}`;
  const title = (text: string) => out(`\n${page.bold(text)}\n${"-".repeat(Math.min(page.columns, text.length))}`);
  const { newId, at, who } = desk.stamp;
  mkdirSync(folder, { recursive: true });
  out(page.bold("An invented scenario: a harbour radio club's set, 230 V 50 Hz, IF 465 kHz."));
  out("A Q multiplier is to be hung on its mixer plate through 1.5 m of 93-ohm cable. Its readings come from a model, and say so.");
  const set = demoSet();
  await desk.store.create({
    id: newId(),
    name,
    created: at,
    set,
    entries: [
      {
        id: newId(),
        at,
        who,
        kind: "instrument",
        instrument: {
          id: "sweep",
          kind: "sweep of level over frequency",
          label: "invented sweep generator and detector",
          ranges: [],
          uncertainty: "0.08 dB",
          lastCheck: "never: invented",
          offset: "none",
        },
      },
    ],
  });

  const proved = [
    "01",
    "02",
    "03",
    "04",
    "05",
    "06",
    "07",
    "08",
    "09",
    "10",
    "11",
    "12",
    "13",
    "14",
    "15",
    "29a",
    "34a",
    "16",
    "17",
    "18",
    "20",
    "22",
    "27",
    "33b",
    "35",
  ];
  await desk.store.append(
    name,
    proved.map((step) => ({ id: newId(), at, who, kind: "done" as const, step, note: "invented: proved before the accessory came" })),
  );

  title("1. Read a sweep of the IF strip, and fit the strip to it");
  const csv = demoSweepCsv();
  const file = join(folder, "as-found-sweep.csv");
  writeBytes(file, csv);
  const read = orThrow(
    readFileIn(
      await openJob(desk, name),
      { name: "as-found-sweep.csv", bytes: new TextEncoder().encode(csv) },
      { as: "if-sweep", state: "as-found", instrument: "sweep", invented: demoInvented },
      desk.stamp,
    ),
  );
  await desk.store.append(name, read.entries, [read.file]);
  out(
    read.reading.figures
      .filter((f) => /width|centre|ripple/.test(f.name))
      .map((f) => `  ${f.name.padEnd(24)} ${f.text}`)
      .join("\n"),
  );
  if (read.fit) out(fitText(read.fit, page));

  for (const [i, sheet] of asked.entries()) {
    title(`${i + 2}. ${sheet.title}`);
    out(answerText(ask(sheet, await openJob(desk, name), undefined, {}), sheet, page));
  }

  title(`${asked.length + 2}. The cable is fitted: what must be redone`);
  const plan = planned(
    await openJob(desk, name),
    "cable-fitted",
    "fittings.qm",
    "1.5 m of 93-ohm cable through the back apron (invented)",
    desk.stamp,
  );
  await desk.store.append(name, plan.entries);
  const view = await openJob(desk, name);
  out(
    nextText(
      nextSteps(view).filter((n) => n.state === "due again"),
      page,
      12,
    ),
  );

  title(`${asked.length + 3}. The report`);
  const pdf = join(folder, "report.pdf");
  writeBytes(pdf, await reportPdf(view));
  out(
    [`Job      "${name}" (fettle show "${name}", fettle next "${name}")`, `Sweep    ${resolve(file)}`, `Report   ${resolve(pdf)}`].join(
      "\n",
    ),
  );
}

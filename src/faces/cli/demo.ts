import { mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { ask, type Desk, openJob } from "../../desk/actions";
import { demo } from "../../desk/commands/demo";
import { demoBand } from "../../desk/demo";
import { demoBeatsFile, demoSweepFile, fitDemoCable, makeDemo } from "../../desk/demo-job";
import { type DemoQuestion, demoQuestions } from "../../desk/demo-questions";
import { sayLeftOut } from "../../desk/left-out";
import { allKnown, takeKnown } from "../../job/known-answers";
import { nextSteps } from "../../job/next";
import { partsCsv } from "../../job/rollups/parts";
import { proofOf } from "../../job/rollups/proof/proof";
import type { JobView } from "../../job/view";
import { converterCardPdf, dialCardPdf, dialScalePdf } from "../report/dial-papers";
import { readyPaper } from "../report/pdf";
import { ownersPdf, partsList } from "../report/reporting";
import { line } from "./line";
import { nextText } from "./next-text";
import { checkOutput, type Output, writeBytes } from "./output";
import { answerText, fitText, proofText } from "./render";
import type { World } from "./world";

/** Files that the demo writes. */
const files = {
  sweep: demoSweepFile,
  beats: demoBeatsFile,
  card: "dial-card.pdf",
  scale: "dial-scale.pdf",
  bandCard: "converter-card.pdf",
  shopping: "parts.csv",
  report: "report.pdf",
  record: "technical-record.pdf",
} as const;

/**
 * The technical record, made beside all that is told: its questions are answered on another thread but for those that are told here, each once; what it
 * fails by is said where it is waited for.
 */
function recordBeside(desk: Desk, view: JobView, here: readonly DemoQuestion[]) {
  const { document } = view;
  const others = desk.errands
    .run("answers", { document, but: here.map(({ sheet, at }) => ({ sheet: sheet.id, at })) })
    .then((known) => takeKnown(view, known));
  const pdf = others.then(() => {
    for (const q of here) ask(q.sheet, view, q.at, {});
    return desk.errands.run("record", { document, known: allKnown(view) });
  });
  for (const awaited of [others, pdf]) awaited.catch(() => undefined);
  return { others, pdf };
}
/** Lets what the other thread has said be heard. */
const heard = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** The main job on the demo set: make the job, judge its power and DC, read a sweep, fit the strip, answer, record the cable, say what is next, write the report. */
async function runDemo(desk: Desk, { path: folder, replace }: Output, world: World): Promise<void> {
  const { out, page } = world;
  const title = (text: string) => out(`\n${page.bold(text)}\n${"-".repeat(Math.min(page.columns, text.length))}`);
  mkdirSync(folder, { recursive: true });
  out(page.bold("An invented scenario: a harbour radio club's set, 230 V 50 Hz, IF 465 kHz."));
  out("A Q multiplier is to be hung on its mixer plate through 1.5 m of 93-ohm cable. Its readings come from a model, and are marked so.");
  // before anything is made: no file of an earlier demo stands in the way
  for (const file of Object.values(files)) checkOutput(world, { path: join(folder, file), replace });
  // while another thread reads the sweep
  const [{ name, sweep, beats }] = await Promise.all([makeDemo(desk), heard().then(readyPaper)]);
  const kept = async (file: string, bytes: Uint8Array | string): Promise<string> => {
    const path = join(folder, file);
    await writeBytes(world, { path, replace }, bytes);
    return resolve(path);
  };

  const before = await openJob(desk, name);
  const { power, strip, dial, front } = demoQuestions(demoBand);
  let fitted = false;
  const fitting = fitDemoCable(desk, name).finally(() => {
    fitted = true;
  });
  // told further down: as many as there is time for while another thread works out what the cable disturbs
  for (const q of strip) {
    await heard();
    if (fitted) break;
    ask(q.sheet, before, q.at, {});
  }
  await fitting;
  const view = await openJob(desk, name);
  const record = recordBeside(desk, view, [...power, ...dial, ...front]);
  const say = async (view: JobView, q: DemoQuestion): Promise<string> => {
    await heard();
    return answerText(ask(q.sheet, view, q.at, {}), q.sheet, page);
  };
  for (const [i, q] of power.entries()) {
    title(`${i + 1}. ${q.sheet.title}`);
    // what the cable does nothing to
    out(await say(view, q));
  }
  // told further down: the record waits for them
  for (const q of [...dial, ...front]) await say(view, q);
  await record.others;

  title(`${power.length + 1}. Read a sweep of the IF strip, and fit the strip to it`);
  const sweepFile = await kept(files.sweep, sweep.csv);
  out(
    sweep.reading.figures
      .filter((f) => /width|centre|ripple/.test(f.name))
      .map((f) => `  ${f.name.padEnd(24)} ${f.text}`)
      .join("\n"),
  );
  if (sweep.fit) out(fitText(sweep.fit, page));

  for (const [i, q] of strip.entries()) {
    title(`${power.length + i + 2}. ${q.sheet.title}`);
    out(await say(before, q));
  }

  title(`${power.length + strip.length + 2}. The cable is fitted: what must be redone`);
  out(
    nextText(
      nextSteps(view, (s) => s.due.length > 0),
      page,
      12,
    ),
  );

  title(`${power.length + strip.length + 3}. The dial: ten minutes of zero beats`);
  const beatsFile = await kept(files.beats, beats.csv);
  const at = `bands.${demoBand}`;
  for (const q of dial) out(`${await say(view, q)}\n`);
  const card = await kept(files.card, await dialCardPdf(view, at, { step: "25 kHz" }));
  const scale = await kept(files.scale, await dialScalePdf(view, at, {}));

  for (const [i, q] of front.entries()) {
    title(`${power.length + strip.length + 4 + i}. ${q.sheet.title}`);
    out(await say(view, q));
  }
  const bandCard = await kept(files.bandCard, await converterCardPdf(view));

  const rest = power.length + strip.length + 4 + front.length;
  title(`${rest}. The performance record`);
  out(proofText(proofOf(view), page));

  title(`${rest + 1}. What to get`);
  const { lines: list, leftOut } = await partsList(view);
  for (const l of leftOut) out(`  ${sayLeftOut(l)}`);
  for (const l of list) out(`  ${l.quantity} x ${l.part}: ${l.value}, ${l.rating}, ${l.kind}`);
  const shopping = await kept(files.shopping, partsCsv(list));

  title(`${rest + 2}. The report to the owner, and the technical record`);
  const report = await kept(files.report, await ownersPdf(view));
  const technical = await kept(files.record, await record.pdf);
  out(
    [
      `Job         "${name}" (fettle show "${name}", fettle next "${name}", fettle open "${name}")`,
      `Sweep       ${sweepFile}`,
      `Zero beats  ${beatsFile}`,
      `Dial card   ${card}`,
      `Dial scale  ${scale}`,
      `Converter   ${bandCard}`,
      `Parts       ${shopping}`,
      `Report      ${report}`,
      `Record      ${technical}`,
    ].join("\n"),
  );
}

export const demoLine = line(demo, ({ here, desk, world }) => desk((d) => runDemo(d, { path: here.folder, replace: here.replace }, world)));

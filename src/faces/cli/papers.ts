import { resolve } from "node:path";
import { openJob } from "../../desk/actions";
import { formById, forms } from "../../job/forms";
import { partsCsv } from "../../job/rollups/parts";
import { storePath } from "../../store/sqlite";
import { InputError } from "../../units/issue";
import { type ShapeTyped, shapeFields } from "../report/dial-papers";
import { sayLeftOut } from "../report/reporting";
import { startServer } from "../server/listen";
import { openBrowser } from "./browser";
import type { Commands } from "./commands";
import { runDemo } from "./demo";
import { checkOutput, type Output, replaceOption, writeBytes } from "./output";
import { proofText } from "./render";

interface ToFile {
  readonly output: string;
  readonly replace?: boolean | undefined;
}
const to = (path: string, o: { readonly replace?: boolean | undefined }): Output => ({ path, replace: o.replace ?? false });

/** What leaves the bench: report and cards; the page; the demo. */
export function paperCommands({ command, desk, world, errands }: Commands): void {
  const { out } = world;
  command("report <job>", "write the report as PDF", 'fettle report "Harbour club set" -o report.pdf')
    .requiredOption("-o, --output <file>", "file to write")
    .option(...replaceOption)
    .action(async (job: string, o: ToFile) => {
      checkOutput(world, to(o.output, o));
      const { document } = await desk((d) => openJob(d, job));
      const bytes = await errands.run("report", { document }, { progress: (said) => world.err(`working out: ${said}`) });
      await writeBytes(world, to(o.output, o), bytes);
      out(`Wrote ${resolve(o.output)} (${Math.round(bytes.length / 1024)} KB).`);
    });

  command("parts <job>", "the shopping list: every part that the job's answers ask for", 'fettle parts "Harbour club set" --csv parts.csv')
    .option("--csv <file>", "write it as CSV too")
    .option(...replaceOption)
    .action(async (job: string, o: { csv?: string; replace?: boolean }) => {
      if (o.csv !== undefined) checkOutput(world, to(o.csv, o));
      const { document } = await desk((d) => openJob(d, job));
      const progress = (said: string): void => world.progress(`working out: ${said}`);
      const { lines, leftOut } = await errands.run("parts", { document }, { progress });
      world.progress("");
      if (lines.length === 0) out("Nothing to get yet: no answer of this job asks for a part.");
      for (const l of lines)
        out(
          [
            `${l.quantity} x ${l.part}: ${l.value}, ${l.rating}, ${l.kind}`,
            ...(l.was ? [`    old one: ${l.was}`] : []),
            `    ${l.why} (${l.from.join("; ")})`,
          ].join("\n"),
        );
      for (const l of leftOut) world.err(sayLeftOut(l));
      if (o.csv !== undefined) {
        await writeBytes(world, to(o.csv, o), partsCsv(lines));
        out(`Wrote ${resolve(o.csv)}.`);
      }
    });

  command(
    "proof <job>",
    "the performance record: each value as found, as left and by the model, with its method",
    'fettle proof "Harbour club set"',
  )
    .option("--json", "for programs")
    .action(async (job: string, o: { json?: boolean }) => {
      const view = await desk((d) => openJob(d, job));
      world.progress("working out the model's values");
      const lines = await errands.run("proof", { document: view.document });
      world.progress("");
      if (o.json) return out(JSON.stringify(lines, null, 1));
      out(
        `${world.page.bold(`Performance record of ${job}: ${view.set.title}`)}\nB+ kills: nothing here makes anything safe to touch. Values are compared only where both were taken the same way.\n`,
      );
      out(proofText(lines, world.page));
    });

  command(
    "cards <job>",
    "write the record cards as PDF, as written or blank for pencil",
    'fettle cards "Harbour club set" --blank -o cards.pdf',
  )
    .requiredOption("-o, --output <file>", "file to write")
    .option(...replaceOption)
    .option("--card <id>", "one card only")
    .option("--blank", "leave them empty")
    .action(async (job: string, o: ToFile & { card?: string; blank?: boolean }) => {
      if (o.card !== undefined && !formById(o.card))
        throw new InputError([{ path: "--card", code: "no-card", read: o.card, expected: `one of ${forms.map((f) => f.id).join(", ")}` }]);
      const { document } = await desk((d) => openJob(d, job));
      await writeBytes(world, to(o.output, o), await errands.run("cards", { document, card: o.card, blank: o.blank ?? false }));
      out(`Wrote ${resolve(o.output)}.`);
    });

  command(
    "dial-card <job> <band>",
    "write the calibration card of a dial as PDF: scale reading of each frequency, band edges, how it was taken",
    'fettle dial-card "Harbour club set" 80 -o card.pdf --step "25 kHz"',
  )
    .requiredOption("-o, --output <file>", "file to write")
    .option(...replaceOption)
    .option("--step <frequency>", "step of the table: 10, 25, 50 or 100 kHz")
    .option("--licence <name>", "whose band edges, as on the sheet band-edge")
    .option("--mode <mode>", "what the transmitter sends: CW, AM, USB or LSB")
    .action(async (job: string, band: string, o: ToFile & { step?: string; licence?: string; mode?: string }) => {
      const { document } = await desk((d) => openJob(d, job));
      const { output, replace, ...how } = o;
      await writeBytes(world, to(output, { replace }), await errands.run("dialCard", { document, band, how }));
      out(`Wrote ${resolve(output)}.`);
    });

  command(
    "converter-card <job>",
    "write the card of the band that the converter brings as PDF: what each place of the dial stands for, images, notes that are no signals",
    'fettle converter-card "Harbour club set" -o converter.pdf',
  )
    .requiredOption("-o, --output <file>", "file to write")
    .option(...replaceOption)
    .action(async (job: string, o: ToFile) => {
      await writeBytes(
        world,
        to(o.output, o),
        await errands.run("converterCard", { document: (await desk((d) => openJob(d, job))).document }),
      );
      out(`Wrote ${resolve(o.output)}.`);
    });

  const scale = command(
    "dial-scale <job> <band>",
    "write a dial scale at true size, with check bars of 100 mm, as SVG or PDF by the name of the file",
    'fettle dial-scale "Harbour club set" 80 -o scale.pdf --shape arc --radius 60 --sweep "180 deg"',
  )
    .requiredOption("-o, --output <file>", "file to write, .svg or .pdf")
    .option(...replaceOption)
    .option("--licence <name>", "whose band edges, as on the sheet band-edge")
    .option("--mode <name>", "what is sent, as on the sheet band-edge");
  for (const [field, says] of Object.entries(shapeFields))
    scale.option(`--${field.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)} <value>`, says);
  scale.action(async (job: string, band: string, o: ShapeTyped & ToFile & { licence?: string; mode?: string }) => {
    const { document } = await desk((d) => openJob(d, job));
    const { output, replace, licence, mode, ...typed } = o;
    const how = { ...(licence ? { licence } : {}), ...(mode ? { mode } : {}) };
    if (!/\.(svg|pdf)$/i.test(output))
      throw new InputError([{ path: "--output", code: "bad-name", read: output, expected: "a file name that ends in .svg or .pdf" }]);
    const kind = /\.svg$/i.test(output) ? "svg" : "pdf";
    const drawn = await errands.run("dialScale", { document, band, kind, typed, how });
    await writeBytes(world, to(output, { replace }), drawn);
    out(
      `Wrote ${resolve(output)}. Print at 100 %, measure both bars, and print again with --measured-across and --measured-down if one is not 100 mm.`,
    );
  });

  command("open [job]", "serve the page on this machine and open it in a browser", 'fettle open "Harbour club set"')
    .option("--port <n>", "port to serve on; any free one where not said")
    .option("--no-browser", "serve only")
    .action(async (job: string | undefined, o: { port?: string; browser: boolean }) => {
      const port = o.port === undefined ? 0 : Number(o.port);
      if (!Number.isInteger(port) || port < 0 || port > 65535)
        throw new InputError([{ path: "--port", code: "not-a-port", read: o.port ?? "", expected: "a whole number from 0 to 65535" }]);
      if (job !== undefined) await desk((d) => openJob(d, job));
      const running = await startServer(storePath(world.env), port);
      const url = job === undefined ? running.url : `${running.url}#/job/${encodeURIComponent(job)}`;
      out(`Fettle's page: ${url}\nIt opens by this whole address only, on this machine only: keep it to yourself. Stop it with Ctrl-C.`);
      const closeFile = o.browser ? openBrowser(url) : () => undefined;
      await new Promise<void>((done) => {
        for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => void running.close().then(done));
      });
      closeFile();
    });

  command("demo", "do the main job on the demo set, and say where everything is", "fettle demo")
    .option("--folder <folder>", "where to put sweep and report", "fettle-demo")
    .option("--replace", "replace the files of an earlier demo there")
    .action(async (o: { folder: string; replace?: boolean }) => {
      await desk((d) => runDemo(d, { path: o.folder, replace: o.replace ?? false }, world));
    });
}

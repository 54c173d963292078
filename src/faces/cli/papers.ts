import { resolve } from "node:path";
import { cards } from "../../desk/commands/cards";
import { converterCard } from "../../desk/commands/converter-card";
import { dialCard } from "../../desk/commands/dial-card";
import { dialScale } from "../../desk/commands/dial-scale";
import { parts } from "../../desk/commands/parts";
import { proof } from "../../desk/commands/proof";
import { report } from "../../desk/commands/report";
import { technicalRecord } from "../../desk/commands/technical-record";
import { sayLeftOut } from "../../desk/left-out";
import { partsCsv } from "../../job/rollups/parts";
import { InputError } from "../../units/issue";
import { line } from "./line";
import { checkOutput, type Output, writeBytes } from "./output";
import { proofText } from "./render";

const to = (here: { readonly output: string; readonly replace: boolean }): Output => ({ path: here.output, replace: here.replace });

/** What leaves the bench: report, parts, cards, scales. */
const wrote = (file: string, bytes: Uint8Array): string => `Wrote ${resolve(file)} (${Math.round(bytes.length / 1024)} KB).`;
export const reportLine = line(report, async ({ said, here, act, out, world }) => {
  checkOutput(world, to(here));
  const bytes = await act(said, { progress: (at) => world.err(`working out: ${at}`) });
  await writeBytes(world, to(here), bytes);
  out(wrote(here.output, bytes));
});
export const technicalRecordLine = line(technicalRecord, async ({ said, here, act, out, world }) => {
  checkOutput(world, to(here));
  const bytes = await act(said, { progress: (at) => world.err(`working out: ${at}`) });
  await writeBytes(world, to(here), bytes);
  out(wrote(here.output, bytes));
});

export const partsLine = line(parts, async ({ said, here, act, out, world }) => {
  if (here.csv !== undefined) checkOutput(world, { path: here.csv, replace: here.replace });
  const { lines, leftOut, used } = await act(said, { progress: (at) => world.progress(`working out: ${at}`) });
  world.progress("");
  if (lines.length === 0) out("Nothing to get yet: no answer calls for a part.");
  for (const l of lines)
    out(
      [
        `${l.quantity} x ${l.part}: ${l.value}, ${l.rating}, ${l.kind}`,
        ...(l.was ? [`    old one: ${l.was}`] : []),
        `    ${l.why} (${l.from.join("; ")})`,
      ].join("\n"),
    );
  if (used.length > 0)
    out(["", "In already:", ...used.map((u) => `  ${u.part}, ${u.where}: ${u.came}${u.old ? `, for ${u.old}` : ""}`)].join("\n"));
  for (const l of leftOut) world.err(sayLeftOut(l));
  if (here.csv === undefined) return;
  await writeBytes(world, { path: here.csv, replace: here.replace }, partsCsv(lines));
  out(`Wrote ${resolve(here.csv)}.`);
});

export const proofLine = line(proof, async ({ said, here, act, out, world }) => {
  world.progress("working out the model's values");
  const { title, lines } = await act(said);
  world.progress("");
  if (here.json) return out(JSON.stringify(lines, null, 1));
  out(
    `${world.page.bold(`Performance record of ${said.job}: ${title}`)}\nB+ kills: nothing here makes anything safe to touch. Values are compared only where both were taken the same way.\n`,
  );
  out(proofText(lines, world.page));
});

export const cardsLine = line(cards, async ({ said, here, act, out, world }) => {
  await writeBytes(world, to(here), await act(said));
  out(`Wrote ${resolve(here.output)}.`);
});

export const dialCardLine = line(dialCard, async ({ said, here, act, out, world }) => {
  await writeBytes(world, to(here), await act(said));
  out(`Wrote ${resolve(here.output)}.`);
});

export const converterCardLine = line(converterCard, async ({ said, here, act, out, world }) => {
  await writeBytes(world, to(here), await act(said));
  out(`Wrote ${resolve(here.output)}.`);
});

export const dialScaleLine = line(dialScale, async ({ said, here, act, out, world }) => {
  const kind = /\.(svg|pdf)$/i.exec(here.output)?.[1]?.toLowerCase();
  if (kind !== "svg" && kind !== "pdf")
    throw new InputError([{ path: "--output", code: "bad-name", read: here.output, expected: "a file name that ends in .svg or .pdf" }]);
  await writeBytes(world, to(here), await act({ ...said, kind }));
  out(
    `Wrote ${resolve(here.output)}. Print at 100 % and measure both bars. If either is not 100 mm, print again with --measured-across and --measured-down.`,
  );
});

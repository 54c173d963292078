import { appendFileSync, readFileSync, writeFileSync } from "node:fs";
import { basename, resolve } from "node:path";
import { fromInstrument } from "../../desk/commands/from-instrument";
import { instrumentCommands } from "../../desk/commands/instrument-commands";
import { simulatedBench } from "../../desk/commands/simulated-bench";
import { sweep } from "../../desk/commands/sweep";
import type { Missed } from "../../instruments/step-sweep";
import { type SteppedPlan, secondsOf } from "../../readings/stepped/plan";
import { generatorLead, meterLead } from "../../standards/generator-lead";
import { printValue } from "../../units/print";
import { type Call, line } from "./line";
import { checkOutput, writeBytes } from "./output";
import { cautionLines, columnsOf, fitText, type Page, wrap } from "./render";
import type { World } from "./world";

/** Instruments at work, told at a terminal. */

const leadLines = (page: Page): string[] => ["Before the generator's output goes on:", ...cautionLines(generatorLead, page, "  ")];
const leadHelp = (world: World): string => `\n\n${leadLines(world.page).join("\n")}`;
const hz = (f: number, stepHz: number): string => printValue(f, "frequency", stepHz / 10);

function planLines(plan: SteppedPlan, page: Page): string[] {
  const { modulation: m } = plan;
  const step = (plan.toHz - plan.fromHz) / (plan.pointsCount - 1);
  const minutes = Math.max(1, Math.ceil(secondsOf(plan) / 60));
  return wrap(
    `${plan.pointsCount} frequencies from ${hz(plan.fromHz, step)} to ${hz(plan.toHz, step)}, ${plan.holds === "level" ? `the generator held at ${plan.levelDbm} dBm` : `the output held at what ${plan.levelDbm} dBm gives in the middle, the generator never above ${plan.mostDbm} dBm`}, ${m ? `AM ${m.percent} % at ${m.toneHz} Hz` : "no modulation"}, AVC ${plan.avc}; ${plan.settleS} s to settle at each, so about ${minutes} min or more.`,
    page.columns,
    "",
    "  ",
  );
}
/** Frequencies at which nothing was read: neighbours with one reason together. */
function missedLines(missed: readonly Missed[], plan: SteppedPlan, page: Page): string[] {
  const all = [...plan.frequencyHz].sort((a, b) => a - b);
  const step = all[1] - all[0];
  const runs: { from: number; to: number; why: string }[] = [];
  for (const { frequencyHz, why } of [...missed].sort((a, b) => a.frequencyHz - b.frequencyHz)) {
    const last = runs[runs.length - 1];
    if (last && last.why === why && all.indexOf(frequencyHz) === all.indexOf(last.to) + 1) last.to = frequencyHz;
    else runs.push({ from: frequencyHz, to: frequencyHz, why });
  }
  return columnsOf(
    runs.map((r) => [r.from === r.to ? hz(r.from, step) : `${hz(r.from, step)} to ${hz(r.to, step)}`, r.why]),
    page.columns,
  );
}
const frame = (says: string, page: Page): string[] => {
  const bar = "#".repeat(Math.min(page.columns, 78));
  return ["", bar, ...wrap(says.toUpperCase(), page.columns - 6, "## ", "## "), bar, ""];
};

/** What a face lends to instruments at work: a file, a frame for what is urgent, keys that pause and end. */
function accompany(call: Call<typeof sweep.takes, typeof sweep.here, unknown>, file: string, soFar: string) {
  const { world } = call;
  let begun = false;
  const stop = new AbortController();
  let paused: Promise<void> | undefined;
  let goOn = (): void => undefined;
  let alarmed = false;
  const release = world.hands?.({
    end: () => {
      goOn();
      stop.abort();
    },
    key: (k) => {
      if (k === "q") {
        goOn();
        stop.abort();
      } else if (paused) {
        paused = undefined;
        goOn();
      } else if (k === "p") {
        world.err("Paused after this step, with the output off. Any key goes on, q ends.");
        paused = new Promise((on) => {
          goOn = on;
        });
      }
    },
  });
  const bench = {
    at: world.now(),
    write: (text: string) => {
      // a torn last line is dropped, so that the next begins on a line of its own
      if (!begun) writeFileSync(file, soFar.slice(0, soFar.lastIndexOf("\n") + 1));
      begun = true;
      appendFileSync(file, text);
    },
    mayBeOn: (says: string) => {
      alarmed = true;
      world.err(frame(says, world.page).join("\n"));
    },
    isOff: () => {
      if (alarmed) world.err("The output is off: the generator says so.");
      alarmed = false;
    },
    paused: () => paused,
  };
  return { bench, signal: stop.signal, release: () => release?.() };
}

export const sweepLine = line(
  sweep,
  async (call) => {
    const { said, here, act, out, world } = call;
    const { page } = world;
    checkOutput(world, { path: here.output, replace: here.replace || here.goOn });
    const soFar = here.goOn ? readFileSync(here.output, "utf8") : "";
    const what = { ...said, soFar, fileName: basename(here.output) };
    if (!said.outputOn) {
      const { plan, done } = await act(what);
      const already = done.length > 0 ? [`${done.length} of them are in ${here.output} already.`] : [];
      out(
        [...planLines(plan, page), ...already, "", ...leadLines(page), "", "Nothing was switched on. Add --output-on to do it."].join("\n"),
      );
      return;
    }
    world.err(leadLines(page).join("\n"));
    const beside = accompany(call, here.output, soFar);
    try {
      if (world.hands) world.err("p pauses, q ends; the output goes off either way.");
      const { plan, stepped, csv, read } = await act(what, { bench: beside.bench, signal: beside.signal, progress: world.progress });
      if (!stepped) return;
      const { points, missed, floorV, broken } = stepped;
      if (!broken && csv !== undefined) await writeBytes(world, { path: here.output, replace: true }, csv);
      out(
        [
          `${points.length} points${broken ? ", broken off" : ""}: ${resolve(here.output)}.${broken ? " --go-on goes on with it." : ""}`,
          ...(floorV > 0
            ? [`With the output off the meter reads ${printValue(floorV, "voltage", floorV / 20)} of hum and noise; it is taken off.`]
            : []),
          ...missedLines(missed, plan, page),
          ...(read
            ? [
                `Recorded in "${said.job}" as reading ${read.reading.id}.`,
                ...columnsOf(
                  read.reading.figures.map((f) => [f.name, f.text]),
                  page.columns,
                ),
                ...read.reading.warnings.map((w) => `  ! ${w}`),
              ]
            : []),
        ].join("\n"),
      );
      if (read?.fit) out(fitText(read.fit, page));
      if (!stepped.isOff) call.judge(1);
    } finally {
      beside.release();
    }
  },
  leadHelp,
);

const meterLines = (page: Page): string[] => ["Before a meter is clipped on:", ...cautionLines(meterLead, page, "  ")];
export const fromInstrumentLine = line(
  fromInstrument,
  async ({ said, act, out, world }) => {
    world.err(meterLines(world.page).join("\n"));
    const { says, by } = await act(said);
    out(`${by}: ${says}. ${said.record === "yes" ? `Recorded at ${said.path} in "${said.job}".` : "Nothing was recorded (--dry-run)."}`);
  },
  (world) => `\n\n${meterLines(world.page).join("\n")}`,
);

export const instrumentCommandsLine = line(instrumentCommands, async ({ said, act, out }) => out(JSON.stringify(await act(said), null, 2)));

export const simulatedBenchLine = line(simulatedBench, async ({ said, act, out, world }) => {
  const { at, close } = await act(said);
  out(
    [
      "A simulated bench, on this machine only; none of it exists:",
      ...columnsOf(Object.entries(at), world.page.columns),
      `Try: fettle sweep ${at.generator} --meter ${at.voltmeter} --from 445kHz --to 485kHz --level -60dBm --avc ${said.avc} --settle 0.05s -o try.csv --output-on`,
      "Ctrl-C ends it.",
    ].join("\n"),
  );
  await new Promise<void>((done) => {
    const release = world.hands?.({ key: () => undefined, end: () => done(release?.()) });
    if (!release) done();
  });
  await close();
});

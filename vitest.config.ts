import { join, relative } from "node:path";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** What `./check quick` leaves to the whole check: statistics, kills, browsers, printed pages, whole jobs, whole sweeps. */
const long = [
  "src/**/*.worlds.test.ts",
  "src/faces/{web,server,report,errands}/**/*.test.ts",
  "src/faces/cli/{cli,readme,recorded,keeping,fill,whole-job,whole-job-live,ear,sweep-keys}.test.ts",
  "src/store/**/*.test.ts",
  "src/{job/order,sheets/suspects/suspects,sheets/extremes,infer/strip/fit,readings/parsers,readings/crossing-near,physics/passband}.property.test.ts",
  "src/faces/{load,figures/circuit-plan,figures/circuit.property,figures/names}.test.ts",
  "src/sheets/{band-edge/band-edge,dial/few-beats,dial/rhythm,drift/drift,drawn,drawn-values,exact,holds,rating,b-plus/measured}.test.ts",
  "src/infer/dial/fit.test.ts",
  "src/readings/sound/{note,note.crosscheck,noise-level,hum.crosscheck,response,crackle,rate-watch,peak,baseband,live}.test.ts",
  "src/faces/cli/{ear-bad-input,ear-response,history}.test.ts",
  "src/{job/job,readings/bounds,invented/rehearsal/rehearsal}.test.ts",
  "src/{infer/worth/zero-beat,instruments/step-sweep,readings/drift-log.crosscheck}.test.ts",
  "src/readings/real-readings.crosscheck.test.ts",
  "src/desk/{assignment,rehearse,accessory-thread}.test.ts",
  "src/{job/rollups/worth/worth,infer/worth/faults.worlds}.test.ts",
  "checks/{adding-a-question,shop-siege,long-job}.test.ts",
];
/** The longest of all, longest first: see docs/checks.md. */
const longest = [
  "src/faces/web/gallery.test.ts",
  "src/faces/web/ear-whole.test.ts",
  "src/desk/whole-jobs/whole-jobs.worlds.test.ts",
  "src/infer/worth/faults.worlds.test.ts",
  "src/faces/web/listen.test.ts",
  "src/sheets/holds.test.ts",
  "checks/adding-a-question.test.ts",
  "checks/shop-siege.test.ts",
  "src/faces/web/page.test.ts",
  "src/readings/sound/note.test.ts",
  "src/readings/sound/note.crosscheck.test.ts",
];
/** Where long ones are found besides. */
const rather = /^src\/(?:faces|store|desk|sheets)\/|\.(?:worlds|crosscheck|property)\.test/;
/** The longest begin first and the short ones last: at the end no worker waits for another's long file. Left to itself a clean copy begins with the short. */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = (s: TestSpecification): number => {
      const file = relative(import.meta.dirname, s.moduleId);
      const at = longest.indexOf(file);
      return at >= 0 ? at : longest.length + (rather.test(file) ? 0 : 1);
    };
    return (await super.sort(files)).sort((a, b) => rank(a) - rank(b));
  }
}
/** What is waited for is the event, and a slow or busy machine fails nothing; what never comes ends after this long, and its test after an hour. */
const patienceMs = 20 * 60_000;
const quick = process.env.FETTLE_QUICK === "1";

export default defineConfig({
  test: {
    testTimeout: 3 * patienceMs,
    hookTimeout: 3 * patienceMs,
    expect: { poll: { timeout: patienceMs, interval: 20 } },
    // of three on two processors one may wait for sound that plays, or for a browser; alone with their thoughts two are enough
    maxWorkers: quick ? 2 : 3,
    sequence: { sequencer: LongestFirst },
    include: ["src/**/*.test.ts", "checks/**/*.test.ts"],
    exclude: ["node_modules/**", ...(quick ? long : [])],
    // what is loaded is shared by the files of a worker; what kills and serves wants a process
    pool: quick ? "threads" : "forks",
    isolate: false,
    // Node itself runs the sources: through the runner's own loader each call from one module to another costs, a quarter of the time of answers
    experimental: { viteModuleRunner: false, nodeLoader: false },
    // answers are many short-lived numbers: with room for them a twentieth of the time is saved; where every processor has work, threads that collect
    // garbage beside it only wait for each other: another twentieth. A thread takes no such switch
    execArgv: [
      "--import",
      join(import.meta.dirname, "sources.mjs"),
      ...(quick ? [] : ["--max-semi-space-size=64", "--single-threaded-gc"]),
    ],
  },
});

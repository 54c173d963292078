import { questions } from "../../sheets/asked";
import type { Question } from "../../sheets/question";
import { cardRows } from "../cards";
import type { Reading } from "../document";
import { type Fault, faultsOf } from "../faults/faults";
import { isUnmended } from "../faults/in-short";
import { ofKind } from "../place-in";
import { lastRead, readAs } from "../readings-in";
import { type DueNow, type JobView, type StepState, setPointsOf } from "../view";

/** A place on the route of a set as it stands: a stage, the supply, a fitting where it is tapped in. */
export interface Place {
  /** `stages.mixer`, `fittings.qm` */
  readonly path: string;
  readonly label: string;
  readonly part: string;
  readonly lies: "path" | "beside" | "hung";
  /** where a fitting hangs, in words */
  readonly hangs?: string;
  /** what a fitting is: planned, fitted, set */
  readonly fitting?: string;
  readonly state: StepState;
  readonly steps: readonly string[];
  readonly due: readonly DueNow[];
  /** by how much the work that made it due moved it, in short */
  readonly amount?: string;
  readonly found?: string;
  readonly left?: string;
  /** faults at it that nobody has mended yet */
  readonly faultsCount: number;
}
type Stage = JobView["set"]["stages"][number];
const rank: readonly StepState[] = ["untouched", "proven", "found", "in work", "due again"];
/** The state of a place by those of its steps: proved once all of them are, and begun while only some are. */
function worstOf(states: readonly StepState[]): StepState {
  const worst = states.reduce<StepState>((w, s) => (rank.indexOf(s) > rank.indexOf(w) ? s : w), "untouched");
  return worst === "proven" && states.some((s) => s !== "proven") ? "in work" : worst;
}
/** A place at which something was mended, worked on or read is not untouched, whichever step it counts for. */
function stateAt(view: JobView, paths: readonly string[], bySteps: StepState): StepState {
  if (bySteps !== "untouched") return bySteps;
  const isAt = (path: string): boolean => paths.includes(path);
  const worked = view.works.some((e) => isAt(e.subject)) || ofKind(view.inForce, "part", "fault").some((e) => isAt(e.place));
  return worked ? "in work" : paths.some((p) => isReadAt(view, p)) ? "found" : "untouched";
}
const aside: readonly string[] = ["supply", "oscillator", "bfo", "accessory"];

const faultsAt = (faults: readonly Fault[], place: string): number => faults.filter((f) => f.place === place).length;

/** An amount in short: `shift of the first primary: -85.5 kHz (-89.8 to -81.4)` is `-85.5 kHz`. */
export const shortAmount = (amount: string): string => amount.replace(/^.*?: /, "").replace(/ \(.*$/, "");

/** Whether a reading is of a stage: taken at it, or of the whole strip and what its steps are about. */
const isOf = (r: Reading, stage: Stage): boolean =>
  r.stage === stage.id || (r.stage === "" && (stage.steps.includes(r.step) || (stage.kind === "can" && r.as === "if-sweep")));
/** Readings of a stage: those taken at it, and of the whole strip those that its steps are about. */
export const readingsAt = (view: JobView, stage: Stage): readonly Reading[] => view.readings.filter((r) => isOf(r, stage));

/** The stage's figure as found and as left: what its latest reading of each kind says first. A sweep of the whole strip stands once, at its first can. */
function figureOf(view: JobView, stage: Stage, state: string): string | undefined {
  const first = view.set.stages.find((s) => s.kind === "can");
  const r = lastRead(view.inForce).findLast(
    ({ reading: x }) => x.state === state && isOf(x, stage) && (x.stage === stage.id || x.as !== "if-sweep" || stage === first),
  )?.reading;
  const f = r?.figures.find((x) => x.name === "width at -6 dB") ?? r?.figures[0];
  return f && `${f.name} ${f.text.replace(/ \(.*/, "")}`;
}

function stagePlace(view: JobView, s: Stage, faults: readonly Fault[]): Place {
  const own = view.steps.filter((x) => s.steps.includes(x.id));
  const due = own.flatMap((x) => x.due);
  const amount = due.find((d) => d.amount)?.amount;
  const found = figureOf(view, s, "as-found");
  const left = figureOf(view, s, "as-left");
  return {
    path: `stages.${s.id}`,
    label: s.label,
    part: s.part,
    lies: aside.includes(s.kind) ? "beside" : "path",
    state: stateAt(view, [`stages.${s.id}`, ...(s.kind === "supply" ? ["supplies"] : [])], worstOf(own.map((x) => x.state))),
    steps: s.steps,
    due,
    faultsCount: faultsAt(faults, `stages.${s.id}`) + (s.kind === "supply" ? faultsAt(faults, "supplies") : 0),
    ...(amount ? { amount: shortAmount(amount) } : {}),
    ...(found ? { found } : {}),
    ...(left ? { left } : {}),
  };
}

function fittingPlace(view: JobView, f: JobView["set"]["fittings"][number], faults: readonly Fault[]): Place {
  const tap = view.set.taps.find((t) => t.id === f.tap);
  const steps = [...new Set(questionsAt(view, `fittings.${f.id}`).flatMap((q) => q.steps))];
  return {
    path: `fittings.${f.id}`,
    label: f.label,
    part: tap ? `at the ${tap.label}` : "not tapped in",
    lies: "hung",
    ...(tap ? { hangs: tap.label } : {}),
    fitting: f.state,
    state: f.state === "planned" ? "untouched" : f.state === "set" ? "found" : "in work",
    steps,
    due: view.steps.filter((s) => steps.includes(s.id)).flatMap((s) => s.due),
    faultsCount: faultsAt(faults, `fittings.${f.id}`),
  };
}

/**
 * The set as its signal goes, antenna to loudspeaker, then what stands beside the path, then what is hung on it.
 *
 * @param view the job as it stands
 * @returns every place once, with its state and its figures
 * @source house frame
 */
export const routeOf = (view: JobView): readonly Place[] => {
  const faults = faultsOf(view).filter(isUnmended);
  const stages = view.set.stages.map((s) => stagePlace(view, s, faults));
  return [
    ...stages.filter((p) => p.lies === "path"),
    ...stages.filter((p) => p.lies === "beside"),
    ...view.set.fittings.filter((f) => f.state !== "offered").map((f) => fittingPlace(view, f, faults)),
  ];
};

/**
 * Questions that concern a place: by its steps, those about a stage of its kind, those about a fitting of its kind.
 *
 * @param view the job
 * @param path path of the place
 * @returns in the order of the sheets
 * @source house frame
 */
export function questionsAt(view: JobView, path: string): readonly Question[] {
  const [list, id] = path.split(".");
  if (list === "fittings") {
    const own = view.set.fittings.find((f) => f.id === id);
    // a lead at the mixer plate is asked about only where one goes there
    const atPlate = (view.set.taps.find((t) => t.id === own?.tap)?.node ?? "") !== "";
    return questions.filter(
      (q) => q.subject === "fitting" && (q.fitting === undefined || q.fitting === own?.kind) && (atPlate || !q.steps.includes("31a")),
    );
  }
  const stage = view.set.stages.find((s) => s.id === id);
  return stage === undefined
    ? []
    : questions.filter((q) => (q.stageKinds ? q.stageKinds.includes(stage.kind) : q.steps.some((s) => stage.steps.includes(s))));
}

/** What was read at a place, in a line. */
export interface ReadAt {
  readonly says: string;
  readonly when: "as found" | "as left" | "on its card";
}
/**
 * What was read at a place, a line each: files, chart rows of its tube, zero beats of the dial.
 *
 * @param view the job
 * @param path path of the place
 * @returns nothing where nobody has read there
 * @source house frame
 */
export function readAt(view: JobView, path: string): readonly ReadAt[] {
  const [list, id] = path.split(".");
  const stage = list === "stages" ? view.set.stages.find((s) => s.id === id) : undefined;
  if (!stage) return [];
  const files = readingsAt(view, stage).map((r): ReadAt => {
    const figures = r.figures.filter((f) => /width at -6|centre/.test(f.name)).map((f) => `${f.name} ${f.text}`);
    return {
      says: `${r.file.name}: ${figures.join("; ") || (r.figures[0] ? `${r.figures[0].name} ${r.figures[0].text}` : r.as)}`,
      when: r.state === "as-found" ? "as found" : "as left",
    };
  });
  const beats = stage.kind === "oscillator" ? beatsSaid(view) : [];
  return [...chartAt(view, stage), ...files.filter((f) => stage.kind !== "oscillator" || !f.says.includes("zero beats")), ...beats];
}
/** Rows of the chart that were read at a stage's tubes. */
function chartAt(view: JobView, stage: Stage): readonly ReadAt[] {
  const sockets = view.set.tubes.filter((t) => t.stage === stage.id).map((t) => t.socket);
  return cardRows(view, "voltage-chart").flatMap(({ cells }): ReadAt[] =>
    sockets.some((s) => cells.Tube?.split(" ")[0] === s) && cells["Measured V"]
      ? [
          {
            says: `${cells.Electrode || `pin ${cells.Pin}`} ${cells["Measured V"]} V${cells["Chart V"] ? `, chart ${cells["Chart V"]} V` : ""}`,
            when: "on its card",
          },
        ]
      : [],
  );
}
/** Whether anything was read at a place. */
function isReadAt(view: JobView, path: string): boolean {
  const stage = path.startsWith("stages.") ? view.set.stages.find((s) => `stages.${s.id}` === path) : undefined;
  return stage !== undefined && (lastRead(view.inForce).some(({ reading }) => isOf(reading, stage)) || chartAt(view, stage).length > 0);
}
const beatsSaid = (view: JobView): readonly ReadAt[] =>
  view.set.bands.flatMap((b) => {
    const points = setPointsOf(view, b.id);
    const count = readAs(view.inForce, "dial")
      .filter((e) => e.reading.band === b.id)
      .reduce((n, e) => n + (e.reading.columns.reading?.length ?? 0), 0);
    return count === 0
      ? []
      : [
          {
            says: `${b.label}: ${count} zero beats${points.length > 1 ? ` at ${points.length} set-points` : ""}`,
            when: "as left" as const,
          },
        ];
  });

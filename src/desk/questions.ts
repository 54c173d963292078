import { questionById } from "../sheets/asked";
import { ask as dial } from "../sheets/dial/ask";
import type { Question } from "../sheets/question";

/** What the desk knows of questions by name, so that no face does. */
const named = (...ids: readonly string[]): readonly Question[] => ids.flatMap((id) => questionById(id) ?? []);

/** The question whose answer is a dial's law, drawn as zero beats come in. */
export const dialLaw: Question = dial;
/** Questions that the page of the dial leads to, in the order in which they are asked. */
export const dialQuestions = named("dial", "band-edge", "set-points", "which-marker");

/** A paper of the job that belongs beside the answer of a question. */
export interface PaperBeside {
  /** below the address of the job */
  readonly path: string;
  readonly says: string;
  /** what its file is called after the job's name */
  readonly file: string;
}
const beside: ReadonlyMap<string, PaperBeside> = new Map([
  ["converter", { path: "converter-card.pdf", says: "Card of this band (PDF)", file: "converter card.pdf" }],
]);
export const paperBeside = (sheet: Pick<Question, "id">): PaperBeside | undefined => beside.get(sheet.id);

/** What of a question's answer can be heard: its curve of the strip as it would be, and the one that it is compared with. */
export interface Heard {
  readonly asItIs: string;
  readonly asItWouldBe: readonly string[];
  /** inputs that a person turns while it plays, each with what it is called there */
  readonly knobs: readonly (readonly [input: string, says: string])[];
}
const heardOf: ReadonlyMap<string, Heard> = new Map([
  [
    "q-multiplier",
    {
      asItIs: "before",
      asItWouldBe: ["after"],
      knobs: [
        ["regeneration", "Regeneration, as a part of where it oscillates"],
        ["tuningOffset", "Its tuning, off the IF"],
      ],
    },
  ],
  [
    "cable-load",
    {
      asItIs: "before",
      asItWouldBe: ["cable", "repeaked", "compensated"],
      knobs: [["cableLength", "Length of the cable"]],
    },
  ],
  [
    "if-response",
    {
      asItIs: "response",
      asItWouldBe: ["response"],
      knobs: [
        ["strip.can1.primaryOffset", "First can, primary off the IF"],
        ["strip.can1.coupling", "First can, coupling"],
      ],
    },
  ],
  [
    "phasing",
    {
      asItIs: "asItStands",
      asItWouldBe: ["asItStands", "balanced"],
      knobs: [["phasing", "Phasing capacitor"]],
    },
  ],
]);
/** Questions whose answers can be heard. */
export const heardQuestions: readonly string[] = [...heardOf.keys()];
export const heardIn = (sheet: string): Heard | undefined => heardOf.get(sheet);

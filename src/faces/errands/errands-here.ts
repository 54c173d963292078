import { ask, sheetNamed } from "../../desk/actions";
import type { Accompanied, ErrandName, Errands, Given, Gives } from "../../desk/errand";
import { planned } from "../../desk/work";
import { fromElsewhere } from "../../job/from-elsewhere";
import { allKnown, takeKnown } from "../../job/known-answers";
import { dialSubject } from "../../job/rollups/dial-papers";
import { modelLines, proofOf } from "../../job/rollups/proof/proof";
import { viewOf } from "../../job/view";
import { readArchive, writeArchive } from "../../store/archive";
import { orThrow } from "../../units/issue";

interface Beside extends Accompanied {
  readonly newId: () => string;
}
type Doing = { readonly [N in ErrandName]: (given: Given<N>, beside: Beside) => Gives<N> | Promise<Gives<N>> };

// loaded when the first errand wants them: a question waits for no paper
const reporting = () => import("../report/reporting");
const dialPapers = () => import("../report/dial-papers");
const doing: Doing = {
  read: async ({ document, file, how, signed }, { newId }) =>
    orThrow(await (await import("../../desk/read-in/read-in")).readFileIn(viewOf(document), file, how, { ...signed, newId })),
  unpack: ({ bytes, name, broughtIn }) => {
    const { files, ...read } = orThrow(readArchive(bytes, name));
    return { files, ...fromElsewhere(read, broughtIn) };
  },
  pack: ({ document, files, unreadable }) => writeArchive(document, files, unreadable),
  sheet: ({ document, sheet, at, ask: how }, { progress }) =>
    ask(sheetNamed(sheet), document && viewOf(document), at, { ...how, ...(progress ? { progress } : {}) }),
  plan: ({ document, said, signed }, { newId }) => planned(viewOf(document), said, { ...signed, newId }),
  parts: async ({ document }, { progress, signal }) =>
    (await reporting()).partsList(viewOf(document), progress, () => signal?.aborted ?? false),
  proof: ({ document }) => proofOf(viewOf(document)),
  faults: async ({ document }) => (await import("../../desk/tracing")).tracedFaults(viewOf(document)),
  report: async ({ document }, { progress, signal }) =>
    (await reporting()).ownersPdf(viewOf(document), progress, () => signal?.aborted ?? false),
  record: async ({ document, known = [] }, { progress, signal }) => {
    const view = viewOf(document);
    takeKnown(view, known);
    return (await reporting()).recordPdf(view, progress, () => signal?.aborted ?? false);
  },
  answers: async ({ document, but }, { progress, signal }) => {
    const view = viewOf(document);
    await (await reporting()).answersBut(view, but, progress, () => signal?.aborted ?? false);
    if (!signal?.aborted) modelLines(view);
    return allKnown(view);
  },
  cards: async ({ document, card, blank }) => (await reporting()).cardsPdf(viewOf(document), card, blank),
  dialCard: async ({ document, band, how }) => {
    const { dialCardPdf } = await dialPapers();
    const view = viewOf(document);
    return dialCardPdf(view, orThrow(dialSubject(view, band)), how);
  },
  converterCard: async ({ document }) => (await dialPapers()).converterCardPdf(viewOf(document)),
  dialScale: async ({ document, band, kind, typed, how }) => {
    const { dialScale, dialScalePdf } = await dialPapers();
    const view = viewOf(document);
    const at = orThrow(dialSubject(view, band));
    return kind === "svg" ? orThrow(dialScale(view, at, typed, how)) : dialScalePdf(view, at, typed, how);
  },
};

/** Does every errand on this thread, without limits: inside a thread of its own, and in tests. */
export const errandsHere = (newId: () => string): Errands => ({
  run: async (name, given, beside = {}) => doing[name](given, { ...beside, newId }),
});

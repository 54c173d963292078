import { ask, sheetNamed } from "../../desk/actions";
import type { Accompanied, ErrandName, Errands, Given, Gives } from "../../desk/errand";
import { readFileIn } from "../../desk/read-in";
import { planned } from "../../desk/work";
import { fromElsewhere } from "../../job/from-elsewhere";
import { proofOf } from "../../job/rollups/proof";
import { viewOf } from "../../job/view";
import { readArchive, writeArchive } from "../../store/archive";
import { orThrow } from "../../units/issue";
import { converterCardPdf, dialCardPdf, dialScale, dialScalePdf, dialSubject } from "../report/dial-papers";
import { cardsPdf, partsList, reportPdf } from "../report/reporting";

interface Beside extends Accompanied {
  readonly newId: () => string;
}
type Doing = { readonly [N in ErrandName]: (given: Given<N>, beside: Beside) => Gives<N> | Promise<Gives<N>> };

const doing: Doing = {
  read: ({ document, file, how, signed }, { newId }) => orThrow(readFileIn(viewOf(document), file, how, { ...signed, newId })),
  unpack: ({ bytes, name, broughtIn }) => {
    const { files, ...read } = orThrow(readArchive(bytes, name));
    return { files, ...fromElsewhere(read, broughtIn) };
  },
  pack: ({ document, files, unreadable }) => writeArchive(document, files, unreadable),
  sheet: ({ document, sheet, at, ask: how }, { progress }) =>
    ask(sheetNamed(sheet), document && viewOf(document), at, { ...how, ...(progress ? { progress } : {}) }),
  plan: ({ document, said, signed }, { newId }) => planned(viewOf(document), said, { ...signed, newId }),
  parts: ({ document }, { progress, signal }) => partsList(viewOf(document), progress, () => signal?.aborted ?? false),
  proof: ({ document }) => proofOf(viewOf(document)),
  report: ({ document }, { progress, signal }) => reportPdf(viewOf(document), progress, () => signal?.aborted ?? false),
  cards: ({ document, card, blank }) => cardsPdf(viewOf(document), card, blank),
  dialCard: ({ document, band, how }) => {
    const view = viewOf(document);
    return dialCardPdf(view, orThrow(dialSubject(view, band)), how);
  },
  converterCard: ({ document }) => converterCardPdf(viewOf(document)),
  dialScale: ({ document, band, kind, typed, how }) => {
    const view = viewOf(document);
    const at = orThrow(dialSubject(view, band));
    return kind === "svg" ? orThrow(dialScale(view, at, typed, how)) : dialScalePdf(view, at, typed, how);
  },
};

/** Does every errand on this thread, without limits: inside a thread of its own, and in tests. */
export const errandsHere = (newId: () => string): Errands => ({
  run: async (name, given, beside = {}) => doing[name](given, { ...beside, newId }),
});

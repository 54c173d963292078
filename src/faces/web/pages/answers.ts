/** The page of a question, with all that draws its answer. */

export { SheetPage } from "../sheet/sheet-page";

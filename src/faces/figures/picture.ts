import type { Picture } from "../../ask/drawn/pictures";
import { circuitSvg } from "./circuit-svg";
import { circuitWords } from "./circuit-words";
import { dayInk, type Ink } from "./svg";

/** Any picture of an answer as SVG, drawn for a width in px; its text is 16 px there. */
export const pictureSvg = (p: Picture, width: number, ink: Ink = dayInk): { readonly svg: string; readonly height: number } =>
  circuitSvg(p, width, ink);

/** The same in words, a sentence each. */
export const pictureWords = (p: Picture): string[] => circuitWords(p);

import type { Picture } from "../../ask/drawn/pictures";
import { chargeSvg, chargeWords } from "./charge-svg";
import { circuitSvg } from "./circuit-svg";
import { circuitWords } from "./circuit-words";
import { dialSvg, dialWords } from "./dial-svg";
import { lampsSvg, lampsWords } from "./lamps-svg";
import { dayInk, type Ink } from "./svg";

/** Any picture of an answer as SVG, drawn for a width in px; its text is 16 px there. */
export function pictureSvg(p: Picture, width: number, ink: Ink = dayInk): { readonly svg: string; readonly height: number } {
  switch (p.kind) {
    case "circuit":
      return circuitSvg(p, width, ink);
    case "dial":
      return dialSvg(p, width, ink);
    case "charge":
      return chargeSvg(p, width, ink);
    case "lamps":
      return lampsSvg(p, width, ink);
  }
}

/** The same in words, a sentence each. */
export function pictureWords(p: Picture): string[] {
  switch (p.kind) {
    case "circuit":
      return circuitWords(p);
    case "dial":
      return dialWords(p);
    case "charge":
      return chargeWords(p);
    case "lamps":
      return lampsWords(p);
  }
}

// made from order.ts: npm run tables
import { findingById } from "../units/by-id";
import { ask as accessoryCapacitors } from "./accessory-capacitors/ask";
import { ask as accessoryPower } from "./accessory-power/ask";
import { ask as accessoryProof } from "./accessory-proof/ask";
import { ask as bPlus } from "./b-plus/ask";
import { ask as bandEdge } from "./band-edge/ask";
import { ask as bfo } from "./bfo/ask";
import { ask as bringUp } from "./bring-up/ask";
import { ask as cableLoad } from "./cable-load/ask";
import { ask as coil } from "./coil/ask";
import { ask as converter } from "./converter/ask";
import { ask as converterSetting } from "./converter-setting/ask";
import { ask as dcBlock } from "./dc-block/ask";
import { ask as dial } from "./dial/ask";
import { ask as drift } from "./drift/ask";
import { ask as ifAlign } from "./if-align/ask";
import { ask as ifResponse } from "./if-response/ask";
import { ask as image } from "./image/ask";
import { ask as markerTrim } from "./marker-trim/ask";
import { ask as markers } from "./markers/ask";
import { ask as multiplierCentre } from "./multiplier-centre/ask";
import { ask as phasing } from "./phasing/ask";
import { ask as qMultiplier } from "./q-multiplier/ask";
import { asQuestions, type Question } from "./question";
import { ask as reform } from "./reform/ask";
import { ask as regulator } from "./regulator/ask";
import { ask as sMeter } from "./s-meter/ask";
import { ask as safety } from "./safety/ask";
import { ask as sensitivity } from "./sensitivity/ask";
import { ask as setPoints } from "./set-points/ask";
import { ask as stageGain } from "./stage-gain/ask";
import { ask as suspects } from "./suspects/ask";
import { ask as tracking } from "./tracking/ask";
import { ask as volts } from "./volts/ask";
import { ask as whichMarker } from "./which-marker/ask";

/** Every question of the house, in the order of the sheets that answer them; for whoever asks without answering. */
export const questions: readonly Question[] = asQuestions([
  safety,
  bringUp,
  reform,
  bPlus,
  regulator,
  volts,
  suspects,
  stageGain,
  ifResponse,
  ifAlign,
  phasing,
  bfo,
  dcBlock,
  cableLoad,
  qMultiplier,
  multiplierCentre,
  accessoryCapacitors,
  accessoryPower,
  accessoryProof,
  markers,
  markerTrim,
  whichMarker,
  dial,
  bandEdge,
  setPoints,
  tracking,
  image,
  converter,
  converterSetting,
  sensitivity,
  sMeter,
  drift,
  coil,
]);

export const questionById = findingById(questions);

// made from order.ts: npm run tables
import type { AnySheet } from "../ask/contract";
import { findingById } from "../units/by-id";
import { accessoryCapacitors } from "./accessory-capacitors/sheet";
import { accessoryPower } from "./accessory-power/sheet";
import { accessoryProof } from "./accessory-proof/sheet";
import { bPlus } from "./b-plus/sheet";
import { bandEdge } from "./band-edge/sheet";
import { bfo } from "./bfo/sheet";
import { bringUp } from "./bring-up/sheet";
import { cableLoad } from "./cable-load/sheet";
import { coil } from "./coil/sheet";
import { converter } from "./converter/sheet";
import { converterSetting } from "./converter-setting/sheet";
import { dcBlock } from "./dc-block/sheet";
import { dial } from "./dial/sheet";
import { drift } from "./drift/sheet";
import { ifAlign } from "./if-align/sheet";
import { ifResponse } from "./if-response/sheet";
import { image } from "./image/sheet";
import { markerTrim } from "./marker-trim/sheet";
import { markers } from "./markers/sheet";
import { multiplierCentre } from "./multiplier-centre/sheet";
import { phasing } from "./phasing/sheet";
import { qMultiplier } from "./q-multiplier/sheet";
import { reform } from "./reform/sheet";
import { regulator } from "./regulator/sheet";
import { sMeter } from "./s-meter/sheet";
import { safety } from "./safety/sheet";
import { sensitivity } from "./sensitivity/sheet";
import { setPoints } from "./set-points/sheet";
import { stageGain } from "./stage-gain/sheet";
import { suspects } from "./suspects/sheet";
import { tracking } from "./tracking/sheet";
import { volts } from "./volts/sheet";
import { whichMarker } from "./which-marker/sheet";

/** Every sheet of the house, in the order in which a person meets them. */
export const sheets: readonly AnySheet[] = [
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
];

export const sheetById = findingById(sheets);

import type { Command } from "../declare";
import { account } from "./account";
import { accounts } from "./accounts";
import { amend } from "./amend";
import { attach } from "./attach";
import { audit } from "./audit";
import { backup } from "./backup";
import { beforeOpening } from "./before-opening";
import { cables } from "./cables";
import { cards } from "./cards";
import { chassis } from "./chassis";
import { checkStore } from "./check-store";
import { clearOut } from "./clear-out";
import { completion } from "./completion";
import { converterCard } from "./converter-card";
import { copy } from "./copy";
import { correct } from "./correct";
import { crackle } from "./crackle";
import { demo } from "./demo";
import { describe } from "./describe";
import { dialCard } from "./dial-card";
import { dialScale } from "./dial-scale";
import { done } from "./done";
import { erase } from "./erase";
import { exportJob } from "./export";
import { fault } from "./fault";
import { faults } from "./faults";
import { file } from "./file";
import { fill } from "./fill";
import { foundAndLeft } from "./found-and-left";
import { fromInstrument } from "./from-instrument";
import { heard } from "./heard";
import { historyCommand } from "./history";
import { hum } from "./hum";
import { importJob } from "./import";
import { instrument } from "./instrument";
import { instrumentCommands } from "./instrument-commands";
import { jobs } from "./jobs";
import { keepFor } from "./keep-for";
import { known } from "./known";
import { leave } from "./leave";
import { mark } from "./mark";
import { mend } from "./mend";
import { newJob } from "./new";
import { next } from "./next";
import { noise } from "./noise";
import { note } from "./note";
import { open } from "./open";
import { ownerLink } from "./owner-link";
import { ownerLinks } from "./owner-links";
import { partKindsCommand } from "./part-kinds";
import { parts } from "./parts";
import { patterns } from "./patterns";
import { peak } from "./peak";
import { proof } from "./proof";
import { read } from "./read";
import { rehearse } from "./rehearse";
import { report } from "./report";
import { response } from "./response";
import { restore } from "./restore";
import { schema } from "./schema";
import { search } from "./search";
import { serve } from "./serve";
import { set } from "./set";
import { setUpStore } from "./set-up-store";
import { settle } from "./settle";
import { sheet } from "./sheet";
import { sheets } from "./sheets";
import { show } from "./show";
import { simulatedBench } from "./simulated-bench";
import { sitting } from "./sitting";
import { steps } from "./steps";
import { sweep } from "./sweep";
import { takeBack } from "./take-back";
import { takeBackBeat } from "./take-back-beat";
import { taken } from "./taken";
import { technicalRecord } from "./technical-record";
import { testNoiseCommand } from "./test-noise";
import { tubes } from "./tubes";
import { undo } from "./undo";
import { upgradeStore } from "./upgrade-store";
import { wait } from "./wait";
import { where } from "./where";
import { work } from "./work";
import { works } from "./works";
import { worth } from "./worth";
import { zeroBeat } from "./zero-beat";
import { zeroBeats } from "./zero-beats";

/** Every command, those with routes first. */
export const commands: readonly Pick<Command, "name" | "says" | "example" | "records" | "takes" | "served">[] = [
  rehearse,
  fromInstrument,
  instrumentCommands,
  simulatedBench,
  sweep,
  jobs,
  newJob,
  describe,
  amend,
  historyCommand,
  importJob,
  demo,
  patterns,
  copy,
  show,
  erase,
  keepFor,
  known,
  clearOut,
  exportJob,
  file,
  fill,
  done,
  instrument,
  correct,
  set,
  undo,
  work,
  mend,
  fault,
  faults,
  foundAndLeft,
  where,
  worth,
  sitting,
  leave,
  wait,
  partKindsCommand,
  chassis,
  read,
  takeBackBeat,
  zeroBeat,
  zeroBeats,
  attach,
  heard,
  taken,
  report,
  technicalRecord,
  cards,
  parts,
  proof,
  dialCard,
  converterCard,
  dialScale,
  account,
  accounts,
  audit,
  backup,
  beforeOpening,
  cables,
  checkStore,
  completion,
  crackle,
  mark,
  hum,
  next,
  noise,
  note,
  open,
  ownerLink,
  ownerLinks,
  peak,
  response,
  restore,
  schema,
  search,
  serve,
  settle,
  sheet,
  sheets,
  steps,
  takeBack,
  testNoiseCommand,
  tubes,
  setUpStore,
  upgradeStore,
  works,
];

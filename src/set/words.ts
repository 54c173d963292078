/** Words that may stand in a set's description, apart from the definition that reads it: the page knows them without it. */
export const stageKinds = [
  "antenna",
  "rf",
  "mixer",
  "oscillator",
  "filter",
  "can",
  "if-tube",
  "detector",
  "avc",
  "bfo",
  "audio",
  "speaker",
  "supply",
  "accessory",
] as const;
export type StageKind = (typeof stageKinds)[number];

export const chassisFacts = ["isolated", "live", "unstated"] as const;

/** What stands between a live chassis and the line: `proved-dead` means an isolation transformer is recorded and the chassis measured. */
export const isolationFacts = ["none", "transformer-recorded", "proved-dead"] as const;

export const fittingStates = ["offered", "planned", "fitted", "set"] as const;

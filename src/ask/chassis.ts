import type { Finding } from "./findings";
import type { ChoiceInput } from "./inputs";

/** States of the chassis that a sheet may be asked under. Anything but the first two counts as live. */
export const chassisStates = ["isolated", "live-proved-dead", "live", "unstated"] as const;
export type ChassisState = (typeof chassisStates)[number];

export const isSafeToJoin = (chassis: string): boolean => chassis === "isolated" || chassis === "live-proved-dead";

/** Every sheet that joins something to the chassis declares this input. It is proved on the job by what was measured, never typed on a sheet. */
export const chassisInput = {
  kind: "choice",
  meaning:
    "how the chassis stands to the line, as it was proved: isolated (own power transformer), live, or live but behind a line isolation transformer and proved dead",
  howMeasured:
    "unplugged, switch on: ohms from each blade of the plug to the chassis, and the power circuit traced; recorded with the act that proves the chassis",
  state: "open-dead",
  options: chassisStates,
  from: (bench) => bench.choice("chassis"),
  assumed: "unstated",
  recordedOnly: (value) => isSafeToJoin(value),
} as const satisfies ChoiceInput;

/** Live, whatever stands between it and the line: never earthed, and no earthed lead to it. */
export const isLiveSet = (chassis: string): boolean => chassis !== "isolated";

/** What stands beside the steps at a live chassis that is behind a line isolation transformer and proved dead. */
export const behindTransformer: Finding = {
  id: "chassis-behind-transformer",
  severity: "check",
  says: "This chassis is live; it may be touched and joined only while the line isolation transformer feeds it.",
  do: "Check that the transformer feeds it each time before you join anything. Never earth this chassis, fit no green wire to it, and join no earthed instrument or accessory to it. Any permanent lead out of it goes through capacitors of class Y.",
  restsOn: [],
  hazards: ["live-chassis", "line"],
  state: "panel",
};

/** First words of any answer that asks for a step at a chassis that is live or not proved. */
export const stopWords = (chassis: string): string =>
  chassis === "live"
    ? "Stop: this chassis is live. Join nothing to it and do nothing at the set until it is behind a line isolation transformer and proved dead."
    : "Stop: nobody has proved this chassis isolated, so it counts as live. Join nothing to it and do nothing at the set until it is proved.";

/** The finding that stands first wherever the chassis is live or not proved. */
export const liveChassisFinding = (chassis: string): Finding => ({
  id: "chassis-may-be-live",
  severity: "danger",
  says:
    chassis === "live"
      ? "The chassis is connected to the line. Whatever is connected to it, and every shaft and screw on it, is at line voltage too."
      : "Whether the chassis is isolated from the line is not proved on this job, so it counts as live: and so do its shafts and screws.",
  do:
    chassis === "live"
      ? "Join nothing to this chassis until a line isolation transformer is recorded and the chassis is proved dead to earth with the plug either way round. A series bulb or a variac isolates nothing. Do not earth a live chassis."
      : "Unplug the set. With its switch on, measure the ohms from each blade of the plug to the chassis, trace the power circuit, and record what proves the chassis. Until then join nothing to it, and never earth it.",
  restsOn: [],
  hazards: ["live-chassis", "line", "b-plus", "stored-charge"],
  state: "open-dead",
});

/** What a chassis counts as, in words. */
export const chassisSaid: Readonly<Record<ChassisState, string>> = {
  isolated: "proved isolated from the line",
  "live-proved-dead": "live, behind a line isolation transformer and proved dead",
  live: "LIVE: connected to the line",
  unstated: "not proved isolated, so it counts as LIVE",
};

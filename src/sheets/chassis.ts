import type { ChoiceInput, Finding } from "./contract";

/** States of the chassis that a sheet may be asked under. Anything but the first two counts as live. */
export const chassisStates = ["isolated", "live-proved-dead", "live", "unstated"] as const;

export const isSafeToJoin = (chassis: string): boolean => chassis === "isolated" || chassis === "live-proved-dead";

/** Every sheet that joins something to the chassis declares this input. */
export const chassisInput = {
  kind: "choice",
  meaning:
    "how the chassis stands to the line: isolated (own power transformer), live, or live but behind a line isolation transformer and proved dead",
  howMeasured: "line to chassis with a voltmeter, both ways of the plug, set on; and the power circuit traced",
  options: chassisStates,
  from: (bench) => bench.choice("chassis"),
  assumed: "unstated",
  keptAt: "chassis.state",
  recordedOnly: (value) => isSafeToJoin(value),
} as const satisfies ChoiceInput;

/** The finding that stands first wherever the chassis is live or not stated. */
export const liveChassisFinding = (chassis: string): Finding => ({
  id: "chassis-may-be-live",
  severity: "danger",
  says:
    chassis === "live"
      ? "The chassis is joined to the line. Whatever is joined to it is at line voltage too."
      : "Whether the chassis is isolated from the line is not recorded, so it counts as live.",
  do: "Join nothing to this chassis until a line isolation transformer is recorded and the chassis is proved dead to earth, both ways of the plug. A series lamp or a variac isolates nothing. Do not earth a live chassis.",
  restsOn: [],
  hazards: ["live-chassis", "line", "b-plus", "stored-charge"],
});

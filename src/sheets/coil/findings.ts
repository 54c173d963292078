import type { G, Put } from "./ask";

/**
 * Whether the slug makes up what the winding is off.
 *
 * @param g inputs at their best, and results with their intervals
 * @param put takes each finding
 * @source house rule
 */
export function findingsOf(g: G, put: Put): void {
  const reach = g.verdict((x, y) => Math.abs(y.offBy) <= x.coilRange);
  const said = {
    yes: "the slug can make that up",
    no: "more than the slug can make up",
    open: "whether the slug can make that up can't be told",
  };
  put(`coil-slug-${reach}`, reach === "yes" ? "note" : "check", `As wound it is ${g.say("offBy")} off what is wanted; ${said[reach]}.`, {
    ...(reach === "yes"
      ? {}
      : {
          do: "Power off, discharged and measured, where the coil sits in a set. Change the turns by the square root of the ratio wanted, then measure; or change the capacitance across it.",
        }),
    restsOn: ["offBy", "turnsWanted"],
  });
}

import { carefully, setFigures } from "../ask/care";
import { isSafeToJoin } from "../ask/chassis";
import type { Hazard } from "../ask/findings";
import type { Caution } from "../standards/cautions";
import type { Form } from "./forms";
import { benchOf, type JobView } from "./view";

/**
 * What is to be heeded before a record card is filled in at this set, or other work of its state is done: none at desk and panel of a proved chassis.
 *
 * @param view the job: its supply's figures, and what its chassis counts as
 * @param form the card
 * @returns the cautions that stand on the card
 * @source cautions.ts
 */
export function cardCautions(view: JobView, form: Pick<Form, "state" | "line">): readonly Caution[] {
  const hazards: Hazard[] = [
    ...(form.line ? (["line"] as const) : []),
    ...(isSafeToJoin(view.chassis) ? [] : (["line", "live-chassis"] as const)),
  ];
  return carefully(setFigures(benchOf(view, "")))({ state: form.state, hazards });
}

import { expect, it } from "vitest";
import { tests } from "../../../infer/stage/tests";
import { usualTakes } from "../../../set/addresses/minutes";
import { steps } from "../../steps";

it("every step of the job and every test at a stage has its minutes", () => {
  for (const [kind, ids] of [
    ["step", steps.map((s) => s.id)],
    ["test", tests.map((t) => t.id)],
  ] as const)
    for (const id of ids) {
      const { hands } = usualTakes(kind, id);
      expect(hands[0], id).toBeGreaterThan(0);
      expect(hands[1], id).toBeGreaterThanOrEqual(hands[0]);
    }
});

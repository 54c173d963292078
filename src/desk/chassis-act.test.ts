/** What a chassis is proved by is as well known as it was read: never exact because nobody said a doubt. */
import { expect, it } from "vitest";
import { viewOf } from "../job/view";
import { patterns } from "../set/patterns/kinds";
import { orThrow } from "../units/issue";
import { standardUncertainty } from "../units/quantity";
import { chassisAct } from "./chassis-act";

const view = viewOf({
  format: "fettle-job",
  version: 5,
  id: "j",
  name: "j",
  created: "2026-05-01T00:00:00Z",
  set: patterns[1],
  entries: [],
});
const stamp = { at: "2026-05-01T00:00:00Z", who: "t", newId: () => "c" };
const said = { meter: "insulation tester, 500 V", how: "each blade of the plug to the chassis, switch on" };
const isolated = (ohms: string) => orThrow(chassisAct(view, { ...said, state: "isolated", ohms, confirm: "isolated" }, stamp));
const doubtsOf = (e: ReturnType<typeof isolated>) =>
  e.kind === "chassis"
    ? Object.values(e.evidence).map((q) => standardUncertainty(q.spread as Parameters<typeof standardUncertainty>[0]))
    : [];

it("every figure of the evidence has a doubt where none was said, the one that was said, and none where it was said to be none", () => {
  expect(doubtsOf(isolated("22 Mohm"))).toEqual([expect.closeTo(22e6 * Math.hypot(0.02, 0.5 / 22 / Math.sqrt(3)), -4)]);
  expect(doubtsOf(isolated("22 Mohm ±0"))).toEqual([0]);
  const dead = { ...said, state: "live-proved-dead", voltsOneWay: "0.3 V", voltsOtherWay: "0.2 V ±0.1 V", confirm: "live-proved-dead" };
  const live = orThrow(chassisAct(view, { ...dead, transformer: "isolation transformer, 500 VA" }, stamp));
  const [one, other] = doubtsOf(live);
  expect(one).toBeGreaterThan(0);
  expect(other).toBeCloseTo(0.1 / Math.sqrt(3), 6);
});

import { expect, it } from "vitest";
import { understand } from "../../set/line-up/understand";
import { ratedLineSaid } from "./rated-line";

it("what nobody looked at has no tolerance of its own on paper: it is said to be usual", () => {
  const line = (said: string) => ratedLineSaid(understand(`6BE6 converter\n${said}`).set!);
  expect(line("117 V 60 Hz")).toBe("117 V, 60 Hz");
  expect(line("230 V")).toBe("230 V, 60 Hz (usual, not looked at)");
  expect(line("no BFO")).toBe("117 V (usual, not looked at), 60 Hz (usual, not looked at)");
});

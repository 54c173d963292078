import { expect, it } from "vitest";
import { type blank, mended, read, record } from "../../desk/thread.testdata";
import { stepById } from "../../job/steps";
import { describeEntry } from "./entry-words";

it("tells of every entry what it is of: the step that was proved, the place that was worked on, the part that was changed", () => {
  const told = (view: typeof blank) => view.document.entries.map((e) => describeEntry(view.set, e));
  const job = record(
    mended(record(read, { kind: "sitting", initials: "JM", meter: "20 kΩ/V", method: "" }), { fault: "" }),
    { kind: "standing", power: "unplugged", case: "open", clipped: "", doing: "" },
    { kind: "waiting", for: "a capacitor", about: "" },
    { kind: "done", step: "01", note: "" },
  );
  const all = told(job);
  expect(all.filter((t) => t === "")).toEqual([]);
  expect(all.at(-1)).toBe(`step 01, proved: ${stepById("01")!.title}`);
  expect(all.join("; ")).toMatch(/Screen resistor R15 at .*: replaced; .*waiting for a capacitor/);
  expect(all.find((t) => t.startsWith("Resistor"))).toMatch(/, at .*V\d/);
});

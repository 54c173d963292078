import { expect, it } from "vitest";
import { nextSteps } from "../../job/next";
import { viewOf } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { nextText } from "./next-text";

it("a caution stands as far in as the step that it is for, never as the words of the step above", () => {
  for (const set of patterns) {
    const items = nextSteps(viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "", set, entries: [] }));
    const lines = nextText(items, { columns: 10_000, bold: (t) => t }, items.length).split("\n");
    const inBy = (l: string): number => l.search(/\S/);
    const cautions = lines.flatMap((l, i) => (l.trim().startsWith("! ") ? [i] : []));
    expect(cautions.length).toBeGreaterThan(3);
    for (const i of cautions) {
      const step = lines.slice(i).find((l) => !l.trim().startsWith("! ")) ?? "";
      expect(step).toMatch(/^ ?\d+\. /);
      expect(inBy(lines[i]), lines[i]).toBeLessThanOrEqual(1);
    }
  }
});
it("the whole list of what to do next spends less than 15.5 % of its words on cautions, half of what it once did", () => {
  for (const set of patterns) {
    const items = nextSteps(viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "", set, entries: [] }));
    const lines = nextText(items, { columns: 10_000, bold: (t) => t }, items.length).split("\n");
    const words = (of: readonly string[]): number => of.reduce((n, l) => n + l.trim().split(/\s+/).length, 0);
    const care = lines.filter((l) => l.trim().startsWith("! "));
    expect(care.length, set.pattern).toBeGreaterThan(3);
    expect(words(care) / words(lines), set.pattern).toBeLessThan(0.155);
  }
});

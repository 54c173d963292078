/** What an entry says in a line: what was done, not how much of it. */
import { expect, it } from "vitest";
import { patterns } from "../set/patterns/kinds";
import { forms } from "./forms";
import { partKinds } from "./mending/kinds";
import { sayEntry } from "./say-entry";

const head = { id: "e", at: "2026-05-01T00:00:00Z", who: "t" };
const card = (form: string, fields: Readonly<Record<string, string>>) => sayEntry(patterns[0], { ...head, kind: "form", form, fields });

it("says of every card what was written on it last, however much that was", () => {
  for (const f of forms) {
    const names = [...f.fields, ...(f.columns ?? []).flatMap((c) => [1, 2].map((n) => `row ${n}: ${c}`))];
    for (const many of [1, 2, names.length]) {
      const own = names.slice(0, many);
      const says = card(f.id, Object.fromEntries(own.map((name, i) => [name, `t${i}`])));
      expect(says).toContain(f.title);
      expect(says, f.id).toContain(`: t${own.length - 1}`);
      expect(says).not.toMatch(/\d fields/);
      if (own.length > 2) expect(says).toContain(`and ${own.length - 2} more`);
    }
  }
});
it("names the cell as it is read aloud, and cuts what is long", () => {
  expect(card("voltage-chart", { "row 5: Measured V": "104", "row 6: Measured V": "1.09" })).toBe(
    "Voltage chart, row 6, Measured V: 1.09; row 5, Measured V: 104",
  );
  expect(card("intake", { Owner: "" })).toContain("Owner emptied");
  expect(card("intake", { Owner: "x".repeat(200) }).length).toBeLessThan(80);
});
it("names the values that were set, of many the first two", () => {
  const q = { value: 121, spread: { shape: "exact" as const }, origin: "measured" as const, source: "meter" };
  const values = { "line.today": q, "line.voltage": q, "supplies.bleeder": q, "supplies.firstCapacitance": q };
  expect(sayEntry(patterns[0], { ...head, kind: "values", values, why: "meter" })).toMatch(/^set \D+, .+, and 2 more: meter$/);
});
it("says of a part its name in words, and of what was taken back what it was", () => {
  for (const kind of partKinds) {
    const part = {
      ...head,
      id: "p",
      kind: "part" as const,
      part: kind.id,
      label: "C12",
      place: "supplies",
      out: { kind: kind.id, words: "", dress: "" },
    };
    const says = sayEntry(patterns[0], part);
    expect(says).toContain(`${kind.title} C12 at `);
    const back = { ...head, kind: "correction" as const, supersedes: "p", why: "taken back on the page" };
    expect(sayEntry(patterns[0], back, [part, back])).toBe(`took back: ${says}`);
    expect(sayEntry(patterns[0], back)).toContain("taken back on the page");
  }
});

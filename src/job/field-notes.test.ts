import { expect, it } from "vitest";
import { fieldNotes, notedFields, noteOf } from "./field-notes";
import { forms } from "./forms";

it("says of every field with a unit in its name what that unit is, and how it is measured", () => {
  for (const form of forms)
    for (const [field, { unit, how }] of fieldNotes(form)) {
      const own = /, (MΩ|kΩ|Ω|mA|V|A|W|dB|minutes|turns)$/.exec(field)?.[1] ?? / (V|Ω|mA|%|dB)(?: if known)?$/.exec(field)?.[1];
      if (own === undefined || field === "Covers on") continue;
      expect(unit, field).toContain(own === "minutes" ? "min" : own);
      expect(how, field).not.toBe("in words");
    }
});
it("has a note for no field that no card has", () => {
  const all = new Set(forms.flatMap((f) => [...f.fields, ...(f.columns ?? [])]));
  expect(notedFields.filter((f) => !all.has(f))).toEqual([]);
  expect(noteOf("Owner")).toEqual({ how: "in words" });
});

import fc from "fast-check";
import { expect, it } from "vitest";
import { seen, withoutTurns } from "./plain-text";

it("shows what a terminal would obey or hide, and leaves every letter as it is", () => {
  expect(seen("a\u001b[2Jb\u0007c\u009b31md\u202ee\u2066f\u200bg\u2028h\u007f")).toBe(
    "a\\u001b[2Jb\\u0007c\\u009b31md\\u202ee\\u2066f\\u200bg\\u2028h\\u007f",
  );
  expect(seen("line\tvolts\n230 V ±5 %, Ω µF é ж 漢 𝛺")).toBe("line\tvolts\n230 V ±5 %, Ω µF é ж 漢 𝛺");
  expect(seen("\u{e0041}\ud800")).toBe("\\udb40\\udc41\\ud800");
  expect(withoutTurns("a\u202eb\u200fc\u200dd")).toBe("a\\u202eb\\u200fc\u200dd");
});
it("leaves nothing behind, and JSON the same data", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 60 }), (text) => {
      expect(seen(text)).not.toMatch(/(?![\t\n])[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/u);
      expect(JSON.parse(seen(JSON.stringify({ text })))).toEqual({ text });
      expect(seen(seen(text))).toBe(seen(text));
    }),
    { numRuns: 1000 },
  );
});

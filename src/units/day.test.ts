import { expect, it } from "vitest";
import { dayInWords } from "./day";

it("writes a day as a letter does, and leaves what is none", () => {
  expect(dayInWords("2026-11-26")).toBe("26 November 2026");
  expect(dayInWords("2026-05-03T10:00:00Z")).toBe("3 May 2026");
  expect(dayInWords("3 May (invented)")).toBe("3 May (invented)");
  expect(dayInWords("2026-13-01")).toBe("2026-13-01");
  expect(dayInWords("")).toBe("");
});

import { expect, it } from "vitest";
import { dayInWords, momentInWords } from "./day";

it("writes a day as a letter does, and leaves what is none", () => {
  expect(dayInWords("2026-11-26")).toBe("26 November 2026");
  expect(dayInWords("2026-05-03T10:00:00Z")).toBe("3 May 2026");
  expect(dayInWords("3 May (invented)")).toBe("3 May (invented)");
  expect(dayInWords("2026-13-01")).toBe("2026-13-01");
  expect(dayInWords("")).toBe("");
});
it("tells a moment by its day and minute, a day alone as a day", () => {
  expect(momentInWords("2026-11-26T18:40:12.000Z")).toBe("26 November 2026, 18:40");
  expect(momentInWords("2026-11-26")).toBe("26 November 2026");
  expect(momentInWords("2026-11-26T00:00:00.000Z")).toBe("26 November 2026");
  expect(momentInWords("some day")).toBe("some day");
});

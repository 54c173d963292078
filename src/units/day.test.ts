import { expect, it } from "vitest";
import { dayInWords, momentInWords, shortDay, shortMoment } from "./day";

it("writes a day as a letter does, and leaves what is none", () => {
  expect(dayInWords("2026-11-26")).toBe("26 November 2026");
  expect(dayInWords("2026-05-03T10:00:00Z")).toBe("3 May 2026");
  expect(dayInWords("3 May (invented)")).toBe("3 May (invented)");
  expect(dayInWords("2026-13-01")).toBe("2026-13-01");
  expect(dayInWords("")).toBe("");
});

it("writes a moment with its minute, in a table shorter; of a day alone the day", () => {
  expect(momentInWords("2026-11-26T17:19:33.000Z")).toBe("26 November 2026, 17:19");
  expect(momentInWords("2026-11-26 17:19")).toBe("26 November 2026, 17:19");
  expect(momentInWords("2026-11-26")).toBe("26 November 2026");
  expect(shortMoment("2026-09-03T07:05:00Z")).toBe("3 Sep 2026, 07:05");
  expect(shortDay("2026-09-03T07:05:00Z")).toBe("3 Sep 2026");
  expect(shortMoment("when it was dry")).toBe("when it was dry");
  expect(momentInWords("2026-11-26T00:00:00.000Z")).toBe("26 November 2026");
});

import { expect, it } from "vitest";
import { sheets } from "./index";

it("whatever a question gives as a chance is told by the rule of chances", () => {
  const chances = sheets.flatMap((s) =>
    Object.entries(s.results).flatMap(([name, r]) => (/\bchance\b/.test(r.meaning) ? [[`${s.id} ${name}`, r.dimension]] : [])),
  );
  expect(chances.length).toBeGreaterThan(1);
  expect(chances.filter(([, dimension]) => dimension !== "chance")).toEqual([]);
});

import { expect, it } from "vitest";
import type { Answer } from "../../../ask/answered";
import { followers } from "./following";

const saying = (headline: string): Answer => ({ headline }) as unknown as Answer;

it("shows an answer in every part, or in none where one of them can't", () => {
  const all = followers();
  const seen: string[] = [];
  expect(all.show(saying("nobody follows"), {})).toBe(false);
  const willing = (name: string) => ({ current: (a: Answer) => () => void seen.push(`${name}: ${a.headline}`) });
  const leave = all.join(willing("number"));
  all.join(willing("curve"));
  expect(all.show(saying("one"), {})).toBe(true);
  expect(seen).toEqual(["number: one", "curve: one"]);
  const leaves = all.join({ current: (a) => (a.headline === "other" ? undefined : () => undefined) });
  expect(all.show(saying("other"), {})).toBe(false);
  expect(seen).toHaveLength(2);
  leaves();
  leave();
  expect(all.show(saying("other"), {})).toBe(true);
  expect(seen.slice(2)).toEqual(["curve: other"]);
});

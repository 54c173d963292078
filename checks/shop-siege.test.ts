/** Short forms of what a shop's records bear; the whole ones are `npm run proof:siege`, with their counts in docs/reliability.md. */
import { expect, it } from "vitest";
import { full, power } from "../bench/siege/shop/disk";
import { load } from "../bench/siege/shop/load";
import { benches, clock, cuts, databaseKills } from "../bench/siege/shop/writers";

it.each([
  ["PostgreSQL killed in mid-write, twice", databaseKills, 2 / 50],
  ["twenty benches that write to one job for three seconds", benches, 3 / 600],
  ["power lost in mid-write, 40 times", power, 40 / 1000],
  ["a disk that is full, twice", full, 2 / 20],
  ["a connection that is cut, 10 times", cuts, 10 / 300],
  ["a clock that jumps, 20 times", clock, 20 / 200],
  ["forty jobs of a hundred readings each", load, 40 / 10_000],
])("%s: nothing that was acknowledged is lost or doubled", async (_, part, share) => {
  const { broke, said } = await part(share);
  expect(broke).toEqual([]);
  expect(said).not.toBe("");
});

/** Short forms of what a shop's records bear; the whole ones are `npm run proof:siege`, with their counts in docs/reliability.md. */
import { expect, it } from "vitest";
import { full, power } from "../bench/siege/shop/disk";
import { load } from "../bench/siege/shop/load";
import { benches, clock, cuts, databaseKills } from "../bench/siege/shop/writers";

it.each([
  ["PostgreSQL killed in mid-write, once", databaseKills, 1 / 50],
  ["twenty benches that write to one job for two seconds", benches, 2 / 600],
  ["power lost in mid-write, 40 times", power, 40 / 1000],
  ["a disk that is full, twice", full, 2 / 20],
  ["a connection that is cut, 5 times", cuts, 5 / 300],
  ["a clock that jumps, 8 times", clock, 8 / 200],
  ["twenty jobs of a hundred readings each", load, 20 / 10_000],
])("%s: nothing that was acknowledged is lost or doubled", async (_, part, share) => {
  const { broke, said } = await part(share);
  expect(broke).toEqual([]);
  expect(said).not.toBe("");
});

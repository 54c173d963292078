/** How often all entries of a job are gone through when it is opened: few times, and as often with many readings as with few. Counted in looks at the entry in the middle. */
import { describe, expect, it } from "vitest";
import { demoSet } from "../desk/demo";
import { crossedIn } from "./crossed";
import type { Entry, JobDocument } from "./document";
import { formatName, formatVersion } from "./format";
import { tableReading } from "./many-readings.testdata";
import { nextSteps } from "./next";
import { stepCounts } from "./open-steps";
import { routeOf } from "./rollups/route";
import { whereOf } from "./rollups/where";
import { standingOf } from "./sitting";
import { fallWith, readingsAndDials, viewOf } from "./view";

const at = "2026-02-01T00:00:00.000Z";
/** How often one entry in the middle of many is looked at while all that the set's page shows is worked out. */
function looks(count: number, more: readonly Entry[] = []): number {
  let seen = 0;
  const entries = Array.from({ length: count }, (_, i) => tableReading(i, at));
  const middle = count >> 1;
  entries[middle] = new Proxy(entries[middle], {
    get: (of, key) => {
      if (key === "kind" || key === "id" || key === "reading") seen++;
      return Reflect.get(of, key);
    },
  });
  const document: JobDocument = {
    format: formatName,
    version: formatVersion,
    id: "long",
    name: "Long",
    created: at,
    set: demoSet(),
    entries: [...entries, ...more],
  };
  const view = viewOf(document);
  routeOf(view);
  whereOf(view, at);
  nextSteps(view);
  crossedIn(view);
  stepCounts(view);
  standingOf(view);
  readingsAndDials(view);
  for (const e of view.inForce.slice(-8)) fallWith(view, e);
  return seen;
}

/** By kind and id into the index, what it says of its place, the fold, and the readings by what they are of. */
const most = 6;

describe("opening a job", () => {
  it("goes through its entries a few times, however much is asked of them", () => {
    expect(looks(101)).toBeLessThanOrEqual(most);
  });
  it("and as often where some were taken back", () => {
    const back: Entry = { id: "c", at, who: "bench", kind: "correction", supersedes: "e3", why: "slip" };
    expect(looks(101, [back])).toBeLessThanOrEqual(most + 3);
  });
  it("no oftener for ten times as many", () => {
    expect(looks(1001)).toBe(looks(101));
  });
});

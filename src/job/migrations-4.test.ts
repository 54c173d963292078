import { describe, expect, it } from "vitest";
import { orThrow } from "../units/issue";
import { formatVersion } from "./format";
import { readJob } from "./read-job";
import stored from "./version-3.testdata.json";
import { viewOf } from "./view";

const { document, unreadable } = orThrow(readJob(structuredClone(stored)));

describe("a job of version 3, as that version stored it", () => {
  it("is read whole and as it was: version 4 only adds kinds of entries", () => {
    expect(document.version).toBe(formatVersion);
    expect(unreadable).toEqual([]);
    expect(document.entries).toEqual(stored.entries);
    expect(viewOf(document).chassis).toBe("isolated");
    expect(viewOf(document).set.line.today?.value).toBe(121);
  });
});

import { describe, expect, it } from "vitest";
import { addressAt } from "../set/addresses";
import { orThrow } from "../units/issue";
import { entriesInFive, setInFive } from "./bulb";
import { writtenOn } from "./cards";
import { formatVersion } from "./format";
import { readJob } from "./read-job";
import stored from "./version-4.testdata.json";
import { benchOf, viewOf } from "./view";

const { document, unreadable } = orThrow(readJob(structuredClone(stored)));
const view = viewOf(document);
const at = (path: string) => benchOf(view, "").quantity(path)?.value;

describe("a job of version 4, as that version stored it", () => {
  it("is read whole, every value at an address of today", () => {
    expect(document.version).toBe(formatVersion);
    expect(unreadable).toEqual([]);
    for (const e of document.entries)
      for (const p of e.kind === "values" ? Object.keys(e.values) : []) expect(addressAt(p), p).toBeDefined();
  });
  it("has the bulb's values by its one name, those that the set was copied with too", () => {
    expect([at("supplies.bulbWatts"), at("supplies.setVoltsBehindBulb"), at("supplies.bulbRated")]).toEqual([100, 88, 120]);
    expect(addressAt("supplies.lampWatts")).toBeUndefined();
  });
  it("has the card's fields by that name", () => {
    expect(writtenOn(view, "first-power")).toEqual({
      "Bulb, W": "60",
      "Volts on the set behind the bulb, V": "78",
      "B+ behind the bulb, V": "180",
    });
  });
  it("is the same when it is read once more, and leaves alone what it does not rename", () => {
    expect(orThrow(readJob(JSON.parse(JSON.stringify(document)))).document).toEqual(document);
    expect(entriesInFive(document.entries).every((e, i) => e === document.entries[i])).toBe(true);
    expect(setInFive(document.set)).toBe(document.set);
    const guessed = { guessed: { "supplies.lampRated": "the line", "line.today": "x" } };
    expect(setInFive(guessed)).toEqual({ guessed: { "supplies.bulbRated": "the line", "line.today": "x" } });
  });
});

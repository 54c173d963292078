import { describe, expect, it } from "vitest";
import { orThrow } from "../../units/issue";
import { peakReading } from "../live-heard";
import { noteEntries } from "../note-entries";
import { blank, record, stamp } from "../thread.testdata";
import { readFileIn } from "./read-in";
import { soundReading } from "./sound-reading";

const cold = record(blank, { kind: "sitting", initials: "JM", meter: "", method: "", thermal: "cold" });
const own = { state: "as-found", step: "29b", file: { name: "a.wav", hash: "" }, columns: {}, figures: [], warnings: [] } as const;
const mutable = { ...own, columns: {}, figures: [], warnings: [] };
const heard = {
  name: "a.wav",
  head: { sampleRateHz: 48_000, channelsCount: 1, heldAs: "PCM, 16 bit", step: 2 ** -15, warnings: [] },
  health: { secondsCount: 30, peakDbfs: -6, rmsDbfs: -12, clippedCount: 0, silent: false, warnings: [] },
  clock: { value: 0, spread: { shape: "exact" }, origin: "assumed", source: "" },
  clockU: 0,
  warnings: [],
} as const;

describe("warm or cold at a reading that is heard", () => {
  it("is as the sitting has it, else as it is said; warm once the session is over", () => {
    expect(soundReading(cold, mutable, stamp()).thermal).toBe("cold");
    expect(soundReading(cold, { ...mutable, thermal: "warming" }, stamp()).thermal).toBe("warming");
    expect(soundReading(blank, mutable, stamp()).thermal).toBe("warm");
    expect(soundReading(cold, mutable, { ...stamp(), at: "2026-01-09T00:00:00Z" }).thermal).toBe("warm");
  });
  it("is so for a peak, a note and a file that is read, and warming for a log of the warm-up", async () => {
    const peak = { timeS: [0], levelDbfs: [-20], of: "the whole sound", bestDb: -19, underDb: 1, passagesCount: 2 };
    const live = {
      name: "a.wav",
      head: { ...heard.head, warnings: [] },
      health: { ...heard.health, warnings: [] },
      clock: "",
      peak,
      heard,
    };
    expect(peakReading(cold, live, { state: "as-found", sound: "" }, stamp()).thermal).toBe("cold");
    const told = { tone: { readings: [{ atS: 0, hz: 800, uHz: 0.1, peakDbfs: -20 }], meanHz: 800, uHz: 0.1 } };
    const said = { state: "as-left", after: "0 s", sideband: "upper" } as const;
    const note = (f?: "drift") => noteEntries(cold, { told, heard, carrierHz: 7e6, said: { ...said, for: f } }, stamp()).entries[0];
    expect(note()).toMatchObject({ reading: { thermal: "cold" } });
    expect(note("drift")).toMatchObject({ reading: { thermal: "warming" } });
    const csv = `frequency kHz,level dB\n${[450, 452, 455, 458, 460].map((f) => `${f},${-((f - 455) ** 2)}`).join("\n")}\n`;
    const file = { name: "few.csv", bytes: new TextEncoder().encode(csv) };
    expect(orThrow(await readFileIn(cold, file, { as: "sweep", state: "as-found" }, stamp())).reading.thermal).toBe("cold");
  });
});

import { describe, expect, it } from "vitest";
import { faultsOf } from "../job/faults/faults";
import { chartOf } from "../job/faults/signs";
import { linesThen } from "../job/line-then";
import { sheetById } from "../sheets/index";
import { judgeChart } from "../sheets/volts/solve";
import { ask } from "./actions";
import { blank, chart, first, form, place, record, stamp } from "./thread.testdata";

const sound = { ...chart, "row 3: Measured V": "228", "row 4: Measured V": "101", "row 5: Measured V": "1.05" };
const verdicts = (view: typeof blank) => judgeChart(chartOf(view)!).map((j) => `${j.electrode} ${j.verdict}`);
const work = { kind: "work", work: "capacitor-replaced", subject: "stages.audio", note: "", makes: [], rests: [] };

describe("volts that were read at another line", () => {
  const read = record(blank, form(sound));
  it("are judged by the line of their own time, and what is read now by the line now", () => {
    expect(verdicts(read)).toEqual(["plate as it should be", "screen as it should be", "cathode as it should be"]);
    // a line far up, with a reading elsewhere: the old ones are of their own line and stay as they were judged
    const up = record(
      record(read, work),
      form({ "Line volts": "150", "row 9: Tube": "V9", "row 9: Electrode": "plate", "row 9: Measured V": "200" }),
    );
    expect(faultsOf(up)).toEqual([]);
    expect(verdicts(up)).toEqual(verdicts(read));
    expect([...linesThen(up)].map(([row, v]) => `${row} ${v}`)).toEqual(["row 3 117", "row 4 117", "row 5 117", "row 9 150"]);
    // what is read again is of the line now
    const again = record(up, form({ "row 4: Measured V": "101" }));
    expect(verdicts(again)[1]).toBe("screen low");
    expect(
      ask(sheetById("volts")!, again, undefined, { draws: 20 })
        .findings.map((f) => f.says)
        .join(" "),
    ).toContain("129 V");
  });
  it("take a line that is said late or corrected in the same session, and none of another day", () => {
    const corrected = record(read, form({ "Line volts": "118" }));
    expect(linesThen(corrected).get("row 3")).toBe("118");
    const week = { ...stamp(), at: "2026-01-10T00:00:00Z" };
    const later = {
      ...read,
      inForce: [...read.inForce, { id: "w", at: week.at, who: "t", ...form({ "Line volts": "125" }) } as (typeof read.inForce)[number]],
    };
    expect(linesThen(later).get("row 3")).toBe("117");
    expect(linesThen(record(record(read, work), form({ "Line volts": "125" }))).get("row 3")).toBe("117");
  });
  it("put a stage that was not read again to its own line before its faults are weighed", () => {
    const kept = record(read, {
      kind: "values",
      values: Object.fromEntries(
        [
          ["plateFeed", 2200],
          ["screenFeed", 30e3],
          ["cathodeResistor", 68],
        ].map(([n, value]) => [`${place}.${n}`, { value, spread: { shape: "exact" }, origin: "stated", source: "" }]),
      ),
      why: "service sheet",
    });
    const says = (view: typeof blank) => ask(sheetById("suspects")!, view, place, { draws: 50 }).headline;
    const up = record(
      record(kept, work),
      form({ "Line volts": "140", "row 9: Tube": "V9", "row 9: Electrode": "plate", "row 9: Measured V": "200" }),
    );
    expect(says(up)).toBe(says(kept));
    expect(first.stage).toBe(place.replace("stages.", ""));
  });
});

import { describe, expect, it } from "vitest";
import { answer } from "../../../ask/answer";
import { patternById } from "../../../set/patterns/kinds";
import { sheetById } from "../../../sheets/index";
import { orThrow } from "../../../units/issue";
import type { Entry, Reading } from "../../document";
import { takeKnown } from "../../known-answers";
import { benchOf, viewOf } from "../../view";
import { proofOf } from "./proof";

const set = patternById("nine-tube-bandspread")!;
const stamp = { at: "2026-01-01T00:00:00Z", who: "t" };
const columns = ["Figure", "Band or place", "As found or as left", "Value", "Method and definition", "Conditions"];
const card = (...rows: readonly (readonly string[])[]): Entry => ({
  id: "card",
  ...stamp,
  kind: "form",
  form: "performance",
  fields: Object.fromEntries(
    rows.flatMap((r, i) => r.map((text, c) => [`row ${i + 1}: ${columns[c]}`, text] as const).filter(([, t]) => t !== "")),
  ),
});
const sweep = (id: string, state: Reading["state"], hz: number): Entry => ({
  id,
  ...stamp,
  kind: "reading",
  reading: {
    id,
    as: "if-sweep",
    state,
    step: "33b",
    stage: "if",
    instrument: "",
    thermal: "warm",
    file: { name: `${id}.csv`, hash: "" },
    columns: {},
    figures: [
      {
        name: "width at -6 dB",
        text: `${hz / 1000} kHz`,
        dimension: "frequency",
        quantity: { value: hz, spread: { shape: "normal", u: 30 }, origin: "measured", source: id },
      },
    ],
    warnings: [],
  },
});
const proof = (...entries: readonly Entry[]) =>
  proofOf(viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: stamp.at, set, entries: [...entries] }));
const whole = "10 dB (S+N)/N, AM 30 %, 6 kHz, 50 ohm, p.d.";

describe("a figure that was measured twice", () => {
  it("is compared as found and as left, and with the model, where both were taken alike", () => {
    const [line] = proof(sweep("a", "as-found", 7200), sweep("b", "as-left", 6500));
    expect(line).toMatchObject({ figure: "width at -6 dB", found: "7.2 kHz", left: "6.5 kHz", method: "swept", refused: false });
    expect(line.says).toMatch(/^700 Hz less than as found; as the model gives\.$/);
    expect(line.model).toContain("kHz");
  });
  it("is kept apart from a model of the set after later work, and said to be due again", () => {
    const work: Entry = {
      id: "w",
      ...stamp,
      kind: "work",
      work: "cable-fitted",
      subject: "fittings.qm",
      note: "",
      rests: [],
      makes: [{ target: "33b", makes: "redo", task: "Performance: selectivity", why: "the cable changes the first can" }],
    };
    const [line] = proof(sweep("a", "as-found", 7200), work);
    expect(line.refused).toBe(true);
    expect(line.says).toMatch(/^Not compared with the model: work was recorded since.*Due again: the cable changes the first can\.$/);
  });
  it("is not compared where the methods differ", () => {
    const [line] = proof(
      card(
        ["Hum", "output", "as found", "-32 dB ± 1 dB", "re 50 mW, A-weighted", "volume full"],
        ["Hum", "output", "as left", "-46 dB ± 1 dB", "re 50 mW, unweighted", ""],
      ),
    );
    expect(line.refused).toBe(true);
    expect(line.says).toContain("A-weighted");
  });
  it("of image rejection stands beside what its circuits give on that band", () => {
    const [line] = proof(card(["Image rejection", "7.1 MHz", "as left", "45 dB ± 3 dB", "generator, output held", ""]));
    expect(line.model).toMatch(/^\d+\.\d dB/);
    expect(line.says).toMatch(/the model/);
  });
});
describe("sensitivity", () => {
  const row = (state: string, value: string, method: string) => ["Sensitivity", "14.2 MHz", state, value, method, "AVC held"];
  it("is compared by one whole definition, and said as noise figures", () => {
    const [line] = proof(card(row("as found", "3.466 uV ± 5%", whole), row("as left", "1.096 uV ± 5%", whole)));
    expect(line.refused).toBe(false);
    expect(line.says).toMatch(/^Noise figure 20\.0 dB, then 10\.0 dB\. 10\.0 dB less than as found\.$/);
    expect(line.model).toContain("noise figure of");
  });
  it("is refused where the definitions are unlike: only noise figures are set side by side", () => {
    const [line] = proof(card(row("as found", "3 uV", whole), row("as left", "0.6 uV", "10 dB (S+N)/N, CW, 6 kHz, 50 ohm, p.d.")));
    expect(line.refused).toBe(true);
    expect(line.says).toMatch(/^Not compared as microvolts: the definitions differ\. As noise figures:/);
  });
  it.each([
    "10 dB (S+N)/N, 30 % AM, 6 kHz, 50 ohm, p.d.",
    "generator 50 ohm p.d.; AM 30 % at 400 Hz; S+N/N 10 dB; bandwidth 6 kc",
    "ratio (S + N)/N 10 dB, modulated 30 % with 400 Hz, 6 kHz wide, source 50 Ω, level as p.d.",
  ])("takes its definition from the Method cell, in whatever words it stands there: %s", (said) => {
    const [line] = proof(card(row("as found", "3.466 uV ± 5%", said), row("as left", "1.096 uV ± 5%", said)));
    expect(line.refused).toBe(false);
    expect(line.says).toMatch(/^Noise figure 20\.0 dB, then 10\.0 dB\./);
  });
  it("is compared by what two definitions say, not by how they are worded", () => {
    const [line] = proof(
      card(row("as found", "3.466 uV ± 5%", whole), row("as left", "1.096 uV ± 5%", "50 ohm p.d.; 30 % AM; 6 kHz; S+N/N 10 dB")),
    );
    expect(line.refused).toBe(false);
  });
  it("is refused where a definition lacks something, which is said", () => {
    const [line] = proof(card(row("as found", "3 uV", "10 dB (S+N)/N, AM 30 %"), row("as left", "1.1 uV", whole)));
    expect(line.refused).toBe(true);
    expect(line.says).toMatch(/^Not compared: as found lacks the bandwidth.*impedance.*p\.d\. or EMF/);
  });
});
it("says what in the card is no figure, and is empty for a job without any", () => {
  expect(proof(card(["Hum", "", "as left", "quite low", "", ""]))[0].says).toContain("quite low");
  expect(proof()).toEqual([]);
});
describe("what the sheets read", () => {
  const sMeter: Entry = {
    id: "s",
    ...stamp,
    kind: "form",
    form: "s-meter",
    fields: Object.fromEntries(
      [
        ["-107", "S3", "0"],
        ["-93", "S6", "12"],
        ["-87", "S7", "16"],
        ["-73", "S9", "17"],
        ["-27", "S9+40", "18"],
      ].flatMap(([dbm, s, db], i) => [
        [`row ${i + 1}: dBm`, dbm],
        [`row ${i + 1}: S reading`, s],
        [`row ${i + 1}: Audio dB`, db],
      ]),
    ),
  };
  it("stands as figures of the record", () => {
    expect(proof(sMeter).map((l) => l.figure)).toEqual(expect.arrayContaining(["Level that reads S9", "Decibels per S unit, below S9"]));
  });
  it("is not worked out again where it was answered in full, and comes out the same", () => {
    const log: Entry = {
      id: "l",
      ...stamp,
      kind: "rows",
      path: "drift.driftLog",
      rows: Array.from({ length: 25 }, (_, i) => 5 * i).map((t) => ({
        time: 60 * t,
        frequency: 4.2165e6 + 480 * Math.exp(-t / 7) + 1650 * Math.exp(-t / 38) + 6 * Math.sin(t * 2.7),
      })),
      why: "",
    };
    const made = () => viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: stamp.at, set, entries: [sMeter, log] });
    const alone = proofOf(made());
    expect(alone.filter((l) => l.method === "log from a cold start").length).toBe(2);
    const view = made();
    const full = ["s-meter", "drift"].map(
      (id) => [JSON.stringify([id, "", {}]), orThrow(answer(sheetById(id)!, benchOf(view, "")))] as const,
    );
    takeKnown(view, full);
    expect(proofOf(view)).toEqual(alone);
    const told = made();
    takeKnown(told, [[full[0][0], { ...full[0][1], results: { ...full[0][1].results, s9Level: full[0][1].results.perUnit } }]]);
    expect(proofOf(told)).not.toEqual(alone);
  });
});

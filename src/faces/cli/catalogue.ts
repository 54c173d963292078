import { cables } from "../../desk/commands/cables";
import { mark } from "../../desk/commands/mark";
import { patterns } from "../../desk/commands/patterns";
import { schema } from "../../desk/commands/schema";
import { sheets } from "../../desk/commands/sheets";
import { steps } from "../../desk/commands/steps";
import { tubes } from "../../desk/commands/tubes";
import { works } from "../../desk/commands/works";
import { leadColours } from "../../standards/marks/lead-colours";
import { markKinds } from "../../standards/marks/tell-mark";
import { line } from "./line";
import { columnsOf } from "./render";

/** What Fettle knows without any job: questions, patterns, cables, kinds of work, steps. */
export const sheetsLine = line(sheets, async ({ said, act, out, world: { page } }) =>
  out(
    columnsOf(
      (await act(said)).map((s) => [s.id, s.question]),
      page.columns,
    ).join("\n"),
  ),
);

export const patternsLine = line(patterns, async ({ said, act, out, world: { page } }) =>
  out(
    columnsOf(
      (await act(said)).map((p) => [p.id, `${p.title}. ${p.note}`]),
      page.columns,
    ).join("\n"),
  ),
);

export const tubesLine = line(tubes, async ({ said, act, out, world: { page } }) => {
  const { tubePoints, converterPoints, diodePairs, rectifiers } = await act(said);
  out(
    columnsOf(
      [
        ["tube", "same data", "plate", "screen", "grid", "plate mA", "screen mA", "µmho", "seen"],
        ...tubePoints.map((t) => [
          t.type,
          t.also.join(" "),
          `${t.plateV} V`,
          t.screenV === undefined ? "" : `${t.screenV} V`,
          `${t.gridV.toFixed(2)} V`,
          (t.plateA * 1000).toFixed(1),
          t.screenA === undefined ? "" : (t.screenA * 1000).toFixed(1),
          (t.transconductance * 1e6).toFixed(0),
          t.seen,
        ]),
        ["converter", "same data", "plate", "screen", "grid leak", "plate mA", "screen mA", "converts, µmho", "seen"],
        ...converterPoints.map((t) => [
          t.type,
          t.also.join(" "),
          `${t.plateV} V`,
          `${t.screenV} V`,
          `${t.gridOhm / 1e3} kΩ`,
          (t.plateA * 1000).toFixed(1),
          (t.screenA * 1000).toFixed(1),
          (t.conversionTransconductance * 1e6).toFixed(0),
          t.seen,
        ]),
        ["double diode", "same data", "inverse", "mA each", "", "", "", "", "seen"],
        ...diodePairs.map((t) => [t.type, t.also.join(" "), `${t.inverseV} V`, (t.mostA * 1000).toFixed(0), "", "", "", "", t.seen]),
        ["rectifier", "drop", "at", "inverse", "peak", "DC", "first capacitor", "heater", "seen"],
        ...rectifiers.map((r) => [
          r.type,
          `${r.dropV} V`,
          `${r.atA * 1000} mA`,
          r.inverseV === undefined ? "" : `${r.inverseV} V`,
          r.peakA === undefined ? "" : `${r.peakA * 1000} mA`,
          r.dcA === undefined ? "" : `${r.dcA * 1000} mA`,
          r.firstF === undefined ? "" : `${r.firstF * 1e6} µF`,
          r.heater,
          r.seen,
        ]),
      ],
      page.columns,
    ).join("\n"),
  );
});

export const markLine = line(
  mark,
  async ({ said, act, out }) => {
    const told = await act(said);
    out([`${told.value}, ${told.tolerance}`, ...(told.also ? [told.also] : []), "Old parts drift: measure it anyway."].join("\n"));
  },
  ({ page }) =>
    `\n\nKinds:\n${columnsOf(
      markKinds.map((k) => [k.id, k.says]),
      page.columns,
    ).join("\n")}\nLeads of transformers:\n${columnsOf(
      leadColours.map((l) => [...l]),
      page.columns,
    ).join("\n")}\nNot every maker or repairer kept to these: prove each lead with an ohmmeter, set unplugged, discharged and measured.`,
);

export const cablesLine = line(cables, async ({ said, act, out, world: { page } }) =>
  out(
    columnsOf(
      [
        ["type", "ohm", "velocity", "pF/ft", "source"],
        ...(await act(said)).map((c) => [
          c.type,
          String(c.impedanceOhm),
          String(c.velocityRatio),
          String(c.printedPfPerFt),
          `${c.source} (${c.flag})`,
        ]),
      ],
      page.columns,
    ).join("\n"),
  ),
);

export const worksLine = line(works, async ({ said, act, out, world: { page } }) =>
  out(columnsOf(await act(said), page.columns).join("\n")),
);

export const stepsLine = line(steps, async ({ said, act, out, world: { page } }) =>
  out(
    columnsOf(
      (await act(said)).map((s) => [s.id, s.safety ? "safety" : "", `${s.title}. Done when: ${s.doneWhen}`]),
      page.columns,
    ).join("\n"),
  ),
);

export const schemaLine = line(schema, async ({ said, act, out }) => out(JSON.stringify(await act(said), null, 1)));

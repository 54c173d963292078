import { noise } from "../../desk/commands/noise";
import type { NoiseOf, NoiseSays } from "../../desk/noise-entries";
import type { Difference } from "../../readings/sound/noise-level";
import { printValue } from "../../units/print";
import { heardLines, leadHelp, sayLead, warningLines } from "./ear";
import { line } from "./line";
import { columnsOf, type Page, wrap } from "./render";

/** dB with its interval, 95 %; no finer than a tenth. */
const within = ({ db, uDb }: Difference): string => {
  const half = Math.max(0.1, 1.96 * uDb);
  return `${db.toFixed(1)} dB (${(db - half).toFixed(1)} to ${(db + half).toFixed(1)})`;
};
const row = (name: string, of: NoiseOf | undefined): string[][] =>
  of ? [[name, `${of.told.rmsDbfs.toFixed(1)} ±${Math.max(0.1, 1.96 * of.told.uDb).toFixed(1)} dB re full scale`]] : [];

function ratioLines({ ratio, first }: NoiseSays, page: Page): string[] {
  const { tone } = first.told;
  return [
    ...(ratio ? [page.bold(`(S+N)/N: ${within(ratio)}`)] : []),
    ...(ratio && ratio.db < 3 * ratio.uDb
      ? wrap("The modulation can't be told from the noise: a longer recording or a stronger signal will tell.", page.columns, "  ")
      : []),
    ...(tone ? [page.bold(`SINAD: ${within({ db: tone.sinadDb, uDb: tone.uDb })}, of the tone at ${tone.hz.toFixed(0)} Hz`)] : []),
    ...(!ratio && !tone ? [page.bold(`Noise floor: ${within({ db: first.told.rmsDbfs, uDb: first.told.uDb })} re full scale`)] : []),
  ];
}
/** Whether the set hears the band. */
function riseLines({ rise }: NoiseSays, page: Page): string[] {
  if (!rise) return [];
  const { says, db, uDb } = rise;
  const none = db < 1.96 * uDb || !says;
  const told = none
    ? "The noise does not rise with the antenna: at this frequency the set hears its own noise alone, or the antenna brings nothing. Try a noisier hour and another antenna before you blame the front end."
    : `External noise is ${says.externalDb.toFixed(1)} dB ${says.externalDb < 0 ? "against" : "above"} the set's own: its own noise costs ${says.lossDb.toFixed(1)} dB of signal to noise here.${says.lossDb < 1 ? " The set hears the band: a better front end would gain next to nothing." : ""}`;
  return [
    page.bold(`Rise from dummy load to antenna: ${within(rise)}`),
    ...wrap(told, page.columns, "  "),
    ...wrap(
      "This holds only on a spot without a station, with a dummy load of the antenna's impedance, and with a linear detector: a diode with little on it doubles a rise, so have the BFO on.",
      page.columns,
      "  ",
    ),
  ];
}

export const noiseLine = line(
  noise,
  async (call) => {
    const { said, here, act, out, world } = call;
    const { page } = world;
    sayLead(call, said.file.name);
    const { says, kept } = await act(said, { progress: world.progress });
    if (here.json) return out(JSON.stringify(says, null, 1));
    const { first, off, dummy } = says;
    const { fromHz, toHz } = first.told.band;
    const all = [first, ...(said.spans === undefined ? [off] : []), dummy].filter((x) => x !== undefined);
    const avc = said.avc === undefined ? "AVC not said" : `AVC ${said.avc}`;
    out(
      [
        ...all.flatMap(({ heard }) => [...heardLines(heard, page), ...warningLines(heard.warnings, page)]),
        "",
        ...ratioLines(says, page),
        ...riseLines(says, page),
        `  ${printValue(fromHz, "frequency")} to ${printValue(toHz, "frequency")}, unweighted, rms; ${avc}; intervals are 95 %`,
        "",
        ...columnsOf(
          [...row(off ? "modulation on" : dummy ? "antenna" : "level", first), ...row("modulation off", off), ...row("dummy load", dummy)],
          page.columns,
        ),
        ...(kept
          ? [`Kept in "${said.job}"${kept > 1 ? ", and given to fettle sheet sensitivity" : ""}; the sound itself stays in its file.`]
          : []),
      ].join("\n"),
    );
  },
  leadHelp,
);

import { noise } from "../../desk/commands/noise";
import type { NoiseOf, NoiseSays } from "../../desk/noise-entries";
import { noiseWords, riseWords } from "../../desk/noise-words";
import { printValue } from "../../units/print";
import { heardLines, leadHelp, saidDevice, sayLead, warningLines } from "./ear";
import { line } from "./line";
import { columnsOf, type Page, wrap } from "./render";

const row = (name: string, of: NoiseOf | undefined): string[][] =>
  of ? [[name, `${of.told.rmsDbfs.toFixed(1)} ±${Math.max(0.1, 1.96 * of.told.uDb).toFixed(1)} dB re full scale`]] : [];

const ratioLines = (says: NoiseSays, page: Page): string[] =>
  noiseWords(says).flatMap(({ large, small }) => [page.bold(large), ...(small === undefined ? [] : wrap(small, page.columns, "  "))]);
/** Whether the set hears the band. */
function riseLines(says: NoiseSays, page: Page): string[] {
  const words = riseWords(says);
  return words ? [page.bold(words.large), ...words.small.flatMap((w) => wrap(w, page.columns, "  "))] : [];
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
        ...wrap(
          `${printValue(fromHz, "frequency")} to ${printValue(toHz, "frequency")}, unweighted, rms; ${avc}; ${saidDevice(said.device)}; intervals are 95 %`,
          page.columns,
          "  ",
        ),
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

import { quantityAt } from "../../set/paths";
import { socketNumber } from "../../set/sockets";
import { electrodeOf, electrodes } from "../../sheets/inputs/chart";
import { rangeFor } from "../../standards/meters";
import { parseQuantity } from "../../units/parse";
import { printValue } from "../../units/print";
import type { Quantity } from "../../units/quantity";
import { standardUncertainty } from "../../units/quantity";
import { cardRows, writingOn } from "../cards";
import { placeIn } from "../place-in";
import type { JobView } from "../view";
import type { Sign } from "./sign";

/**
 * What a needle is read to, as a part of its range: a quarter of a division of fifty. The meter's own error is the same at both ends of a resistor that is
 * read on one range, and falls out. Common practice, no source.
 */
const readTo = 0.005;
/** How many standard uncertainties currents may miss each other by. House rule. */
const mostApart = 3;

interface Read {
  readonly volts: number;
  readonly u: number;
  readonly entry: string;
}
interface Current {
  readonly ampere: number;
  readonly u: number;
}
/** Volts of a tube by electrode, as they were read on the chart's card. */
function voltsOf(view: JobView, socket: number): ReadonlyMap<string, Read> {
  const written = writingOn(view, "voltage-chart");
  return new Map(
    cardRows(view, "voltage-chart").flatMap(({ number, cells }): [string, Read][] => {
      const text = (cells["Measured V"] ?? "").trim();
      const read = parseQuantity(/^[-+]?[\d.,]+$/.test(text) ? `${text} V` : text, "voltage", "");
      if (socketNumber(cells.Tube ?? "") !== socket || !read.ok) return [];
      const { value } = read.value;
      const entry = written.get(`row ${number}: Measured V`)?.entry ?? "";
      return [[electrodes[electrodeOf(cells.Electrode ?? "")], { volts: value, u: readTo * rangeFor(value), entry }]];
    }),
  );
}
function through(from: Pick<Read, "volts" | "u">, to: Pick<Read, "volts" | "u">, ohm: Quantity): Current {
  const ampere = (from.volts - to.volts) / ohm.value;
  return { ampere, u: Math.hypot(Math.hypot(from.u, to.u) / ohm.value, (ampere * standardUncertainty(ohm.spread)) / ohm.value) };
}

/**
 * Stages of an accessory, which no chart is printed for: what flows in by plate and screen flows out by the cathode, each by its resistor as marked. Where
 * that doesn't add up, one of them is not as marked, or leaks.
 *
 * @param view the job as it stands
 * @returns a sign for each stage whose currents miss each other by more than they are known to
 * @source Kirchhoff's current law; uncertainties by JCGM 100
 */
export const currentSigns = (view: JobView): readonly Sign[] =>
  view.set.stages
    .filter((s) => s.kind === "accessory")
    .flatMap((stage): readonly Sign[] => {
      const place = `stages.${stage.id}`;
      const tube = view.set.tubes.find((t) => t.stage === stage.id);
      const read = voltsOf(view, socketNumber(tube?.socket ?? "") ?? Number.NaN);
      const [plate, screen, cathode] = ["plate", "screen", "cathode"].map((e) => read.get(e));
      const [supply, plateOhm, screenOhm, cathodeOhm] = ["supply", "plateFeed", "screenFeed", "cathodeResistor"].map((n) =>
        quantityAt(view.set, `${place}.${n}`),
      );
      if (!tube || !plate || !cathode || !supply || supply.origin !== "measured" || !plateOhm || !cathodeOhm || (screen && !screenOhm))
        return [];
      const at = (id: string | undefined): number => placeIn(view.inForce, id);
      const entries = [plate.entry, cathode.entry, ...(screen ? [screen.entry] : []), view.kept.get(`${place}.supply`) ?? ""];
      // what was read before and after work on the stage doesn't belong together
      const worked = at(view.works.findLast((e) => e.subject === place)?.id);
      if (entries.some((e) => at(e) < worked) && entries.some((e) => at(e) > worked)) return [];
      const feed = { volts: supply.value, u: readTo * rangeFor(supply.value) };
      const currents = [through(feed, plate, plateOhm), ...(screen && screenOhm ? [through(feed, screen, screenOhm)] : [])];
      const out = through(cathode, { volts: 0, u: 0 }, cathodeOhm);
      const into = currents.reduce((s, c) => s + c.ampere, 0);
      const u = Math.hypot(out.u, ...currents.map((c) => c.u));
      if (Math.abs(into - out.ampere) <= mostApart * u) return [];
      const name = (a: number): string => printValue(a, "current", Math.max(1e-4, u / 2));
      const last = entries.reduce((a, b) => (at(a) > at(b) ? a : b));
      const parts = ["plate", ...(screen ? ["screen"] : []), "cathode"].join(", ");
      return [
        {
          place,
          point: `${tube.socket}, its currents`,
          says: `${tube.socket} by its resistors as marked takes in ${name(into)} and gives off ${name(out.ampere)}: one of ${parts} resistor is not as marked, or something leaks there`,
          entry: last,
        },
      ];
    });

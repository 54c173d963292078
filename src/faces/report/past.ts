import type { Content } from "pdfmake/interfaces";
import { type Past, sayPast } from "../../job/history/history";
import { isSo } from "../../set/addresses/history";
import { upperFirst } from "../../units/sentence";

/** What others did to the set before it came, how anybody knows, and whether its measurements are done; nothing where nothing is known of it. */
export function pastContent(past: readonly Past[]): Content[] {
  const so = past.filter((p) => isSo(p.word));
  const not = past.filter((p) => p.word === "not so");
  if (so.length + not.length === 0) return [];
  return [
    { text: "What others did to it", style: "h2" },
    {
      ul: so.map(
        (p) =>
          `${upperFirst(sayPast(p))}. ${p.next ? `Not settled: next ${p.next.says}. ${p.until}` : `Settled: ${p.leads.map((l) => l.says).join("; ")}.`}`,
      ),
      margin: [0, 0, 0, 4],
    },
    ...(not.length > 0 ? [{ text: `Checked, and not so: ${not.map((p) => p.meaning).join("; ")}.`, style: "small" }] : []),
  ];
}

import { z } from "zod";
import { openJob } from "../actions";
import { declare, field, job, onlySaid, output, replace, unseen } from "../declare";

const typed = (usage: string, says: string) => field(z.string().optional(), usage, says);

export const dialScale = declare({
  name: "dial-scale",
  says: "print a dial scale true to size, with 100 mm check bars, as SVG or PDF by the file's name",
  example: 'fettle dial-scale "Harbour club set" 80 -o scale.pdf --shape arc --radius 60 --sweep "180 deg"',
  records: false,
  takes: z.object({
    job: job(),
    at: field(z.string().default(""), "<band>", "band of the set"),
    kind: unseen(z.enum(["svg", "pdf"]), "pdf"),
    licence: typed("--licence <name>", "whose band edges, as on the sheet band-edge"),
    mode: typed("--mode <name>", "what is sent, as on the sheet band-edge"),
    shape: typed("--shape <value>", "arc or straight"),
    radius: typed("--radius <value>", "radius of the line that the marks stand on, for an arc"),
    sweep: typed("--sweep <value>", "angle from end to end of the pointer's travel, for an arc"),
    length: typed("--length <value>", "length from end to end of the pointer's travel, for a straight scale"),
    sense: typed("--sense <value>", "forward: readings rise clockwise or to the right; backward: the other way"),
    paper: typed("--paper <value>", "A4 or Letter"),
    measuredAcross: typed("--measured-across <value>", "length of the 100 mm bar across, as measured on the last print"),
    measuredDown: typed("--measured-down <value>", "length of the 100 mm bar down, as measured on the last print"),
  }),
  here: z.object({ output: output("file to write, .svg or .pdf"), replace: replace() }),
  act: async ({ job: name, at: band, kind, licence, mode, ...shape }, at) => {
    const { document } = await at.desk((d) => openJob(d, name));
    const given = { document, band, kind, typed: onlySaid(shape), how: onlySaid({ licence, mode }) };
    return at.errands.run("dialScale", given, at);
  },
  routes: [
    {
      method: "GET",
      may: "bench",
      path: "/api/jobs/:name/dial-scale.:kind{svg|pdf}",
      gives: (paper, { kind }) =>
        kind === "svg" ? { paper, type: "image/svg+xml", file: "scale.svg" } : { paper, type: "application/pdf" },
    },
  ],
});

import { z } from "zod";
import { openJob } from "../actions";
import { declare, field, job, onlySaid, output, replace } from "../declare";

export const dialCard = declare({
  name: "dial-card",
  says: "print a dial's calibration card as PDF: scale reading for each frequency, band edges, how it was taken",
  example: 'fettle dial-card "Harbour club set" 80 -o card.pdf --step "25 kHz"',
  records: false,
  takes: z.object({
    job: job(),
    at: field(z.string().default(""), "<band>", "band of the set"),
    step: field(z.string().optional(), "--step <frequency>", "step of the table: 10, 25, 50 or 100 kHz"),
    licence: field(z.string().optional(), "--licence <name>", "whose band edges, as on the sheet band-edge"),
    mode: field(z.string().optional(), "--mode <mode>", "what the transmitter sends: CW, AM, USB or LSB"),
  }),
  here: z.object({ output: output(), replace: replace() }),
  act: async ({ job: name, at: band, ...how }, at) => {
    const { document } = await at.desk((d) => openJob(d, name));
    return at.errands.run("dialCard", { document, band, how: onlySaid(how) }, at);
  },
  routes: [{ method: "GET", may: "bench", path: "/api/jobs/:name/dial-card.pdf", gives: (paper) => ({ paper, type: "application/pdf" }) }],
});

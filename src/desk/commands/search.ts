import { z } from "zod";
import { declare, field, nothing } from "../declare";

const mostFound = 60;

export const search = declare({
  name: "search",
  says: "find a word in the entries of all jobs: notes, cards, readings, parts; the latest first",
  example: "fettle search crackle",
  records: false,
  takes: z.object({ text: field(z.string().min(2, "at least two letters").max(200), "<text>", "what to look for") }),
  here: nothing,
  act: ({ text }, { desk }) => desk((d) => d.store.search(text, mostFound)),
  routes: [{ method: "GET", may: "bench", path: "/api/search", gives: (given) => ({ json: given }) }],
});

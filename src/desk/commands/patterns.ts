import { patterns as all } from "../../set/patterns/kinds";
import { declare, nothing } from "../declare";

export const patterns = declare({
  name: "patterns",
  says: "list the invented sets a job can start from",
  example: "fettle patterns",
  records: false,
  takes: nothing,
  here: nothing,
  act: async () => all.map((p) => ({ id: p.pattern, title: p.title, note: p.note })),
  routes: [{ method: "GET", may: "bench", path: "/api/patterns", gives: (list) => ({ json: list }) }],
});

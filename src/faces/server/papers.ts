import type { Context, Hono } from "hono";
import { type Desk, openJob } from "../../desk/actions";
import type { ErrandName, Given } from "../../desk/errand";
import { formById } from "../../job/forms";
import { partsCsv } from "../../job/rollups/parts";
import { bytesOf, wrong } from "./guard";

const attached = (type: string, file: string): Record<string, string> => ({
  "content-type": type,
  "content-disposition": `attachment; filename="${file}"`,
});
const pdf = { "content-type": "application/pdf" };
/** Only what was said, of these. */
const some = (said: Readonly<Record<string, string>>, names: readonly string[]): Record<string, string> =>
  Object.fromEntries(names.flatMap((n) => (said[n] ? [[n, said[n]]] : [])));

/** Routes of what leaves the bench: report, cards, scales, parts, the performance record. Each is worked out beside the server's own thread. */
export function paperRoutes(app: Hono, desk: () => Desk): void {
  const of = async <N extends ErrandName>(c: Context, name: N, more: Omit<Given<N>, "document">) => {
    const d = desk();
    const { document } = await openJob(d, c.req.param("name") ?? "");
    return d.errands.run(name, { ...more, document } as Given<N>, { signal: c.req.raw.signal });
  };
  app.get("/api/jobs/:name/report.pdf", async (c) => c.body(bytesOf(await of(c, "report", {})), 200, pdf));
  app.get("/api/jobs/:name/cards.pdf", async (c) => {
    const card = c.req.query("card");
    if (card !== undefined && !formById(card)) throw wrong("card", card, "a record card");
    return c.body(bytesOf(await of(c, "cards", { card, blank: c.req.query("blank") === "yes" })), 200, pdf);
  });
  app.get("/api/jobs/:name/parts", async (c) => c.json(await of(c, "parts", {})));
  app.get("/api/jobs/:name/proof", async (c) => c.json({ lines: await of(c, "proof", {}) }));
  app.get("/api/jobs/:name/parts.csv", async (c) =>
    c.body(partsCsv((await of(c, "parts", {})).lines), 200, attached("text/csv; charset=utf-8", "parts.csv")),
  );
  app.get("/api/jobs/:name/dial-card.pdf", async (c) => {
    const said = c.req.query();
    return c.body(bytesOf(await of(c, "dialCard", { band: said.at ?? "", how: some(said, ["step", "licence", "mode"]) })), 200, pdf);
  });
  app.get("/api/jobs/:name/converter-card.pdf", async (c) => c.body(bytesOf(await of(c, "converterCard", {})), 200, pdf));
  app.get("/api/jobs/:name/dial-scale.:kind{svg|pdf}", async (c) => {
    const { at = "", licence: _l, mode: _m, ...typed } = c.req.query();
    const kind = c.req.param("kind") === "svg" ? "svg" : "pdf";
    const drawn = await of(c, "dialScale", { band: at, kind, typed, how: some(c.req.query(), ["licence", "mode"]) });
    return typeof drawn === "string" ? c.body(drawn, 200, attached("image/svg+xml", "scale.svg")) : c.body(bytesOf(drawn), 200, pdf);
  });
}

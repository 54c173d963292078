import { expect, it } from "vitest";
import { demoSet } from "../../desk/demo";
import { viewOf } from "../../job/view";
import { converterCard, converterCardPdf } from "./dial-papers";

const view = (set = demoSet()) =>
  viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "2026-01-01T00:00:00Z", set, entries: [] });

it("prints the card of the wanted band: every mark, the picture, the notes that are no signals", async () => {
  const card = converterCard(view());
  const text = JSON.stringify(card.ok ? card.value.content : card.issues);
  for (const said of ["28.000", "28.500", "not measured yet", "harmonic", "Short the converter's input", "<svg"])
    expect(text).toContain(said);
  expect(new TextDecoder().decode((await converterCardPdf(view())).slice(0, 5))).toBe("%PDF-");
});
it("can be asked of a job from before converters were known", () => {
  const set = demoSet();
  const old = view({ ...set, fittings: set.fittings.filter((f) => f.kind !== "converter") });
  expect(old.set.fittings.some((f) => f.kind === "converter" && f.state === "offered")).toBe(true);
  expect(converterCard(old).ok).toBe(true);
});

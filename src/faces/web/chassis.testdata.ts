import { demoCards, demoSet } from "../../desk/demo";
import type { Entry } from "../../job/document";
import { isolatedAct } from "../../job/proved.testdata";
import type { JobStore } from "../../store/store";

/** The demo's set with its cards written and its safety steps proved; all invented. */
export async function playedDemo(store: JobStore): Promise<void> {
  const at = "2026-02-01T00:00:00.000Z";
  const proved = ["02", "03", "04"].map((step): Entry => ({ id: `p${step}`, at, who: "t", kind: "done", step, note: "" }));
  const cards = Object.entries(demoCards).map(([form, fields]): Entry => ({ id: `c-${form}`, at, who: "t", kind: "form", form, fields }));
  const isolated = isolatedAct(() => ({ id: "chassis", at, who: "t" }));
  await store.create({ id: "c", name: "Club set", created: at, set: demoSet(), entries: [...proved, ...cards, isolated] });
}

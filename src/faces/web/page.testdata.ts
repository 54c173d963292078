import { demoSet, demoZeroBeatsCsv } from "../../desk/demo";
import { readZeroBeats } from "../../readings/zero-beats";
import { patterns } from "../../set/patterns/kinds";
import type { JobStore } from "../../store/store";

/** Jobs as a bench may have them: the demo's set with zero beats and three steps said to be proved, one of each pattern, one of unstated chassis; all invented. */
export async function benchOfJobs(store: JobStore): Promise<void> {
  const proved = ["02", "03", "04"].map((step) => ({
    id: `p${step}`,
    at: "2026-02-01T00:00:00.000Z",
    who: "t",
    kind: "done" as const,
    step,
    note: "",
  }));
  await store.create({ id: "h", name: "Harbour", created: "2026-02-01T00:00:00.000Z", set: demoSet(), entries: proved });
  for (const p of patterns)
    await store.create({ id: p.pattern, name: p.pattern, created: "2026-02-01T00:00:00.000Z", set: p, entries: [] });
  const unstated = { ...patterns[0], chassis: { state: "unstated" as const, isolation: "proved-dead" as const, note: "" } };
  const beats = readZeroBeats(new TextEncoder().encode(demoZeroBeatsCsv()), "beats.csv");
  if (!beats.ok) throw new Error("the demo's zero beats");
  await store.append("Harbour", [
    {
      id: "beats",
      at: "2026-02-01T00:00:00.000Z",
      who: "t",
      kind: "reading",
      reading: {
        id: "r0",
        as: "dial",
        state: "as-left",
        step: "26",
        stage: "",
        instrument: "",
        thermal: "warm",
        band: "80",
        setPoint: "dot",
        file: { name: "beats.csv", hash: "" },
        columns: { reading: [...beats.value.reading], frequencyHz: [...beats.value.frequencyHz], approach: [...beats.value.approach] },
        figures: [{ name: "zero beats", text: "9" }],
        warnings: [],
      },
    },
  ]);
  await store.create({ id: "u", name: "unstated", created: "2026-02-01T00:00:00.000Z", set: unstated, entries: [] });
}

import { useMemo } from "preact/compat";
import type { JobView } from "../../../job/view";
import { sweepsDrawing } from "../../figures/sweeps";
import { api } from "../api";
import { ReadPlot } from "../figure/plot";
import { Issues } from "../parts";
import { ProofLines } from "../proof-page";
import { useLines } from "../use-lines";

/** Volts, ohms and parts in one table: by the chart, as found, as left, by the model, each with its meter and line; the IF as it was and is. */
export function FoundAndLeft({ view, name, version }: { readonly view: JobView; readonly name: string; readonly version: number }) {
  const { lines, issues } = useLines(api.foundAndLeft, name, version);
  const sweeps = useMemo(() => sweepsDrawing(view), [view]);
  return (
    <main>
      <h1>Found and left</h1>
      <Issues of={issues} />
      {sweeps && <ReadPlot of={sweeps} />}
      <p role="status" className="quiet">
        {lines === undefined && issues.length === 0
          ? "Reading the record…"
          : lines?.length === 0
            ? "No volts, ohms or parts on record yet. Fill in a chart, or mend something."
            : "Each with its meter and line. Values are compared only where both were taken the same way."}
      </p>
      <ProofLines of={lines ?? []} />
    </main>
  );
}

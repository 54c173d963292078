import { api } from "../api";
import { Issues } from "../parts";
import { ProofLines } from "../proof-page";
import { useLines } from "../use-lines";

/** Volts, ohms and parts in one table: by the chart, as found, as left, by the model, each with its meter and line. */
export function FoundAndLeft({ name, version }: { readonly name: string; readonly version: number }) {
  const { lines, issues } = useLines(api.foundAndLeft, name, version);
  return (
    <main>
      <h1>Found and left</h1>
      <Issues of={issues} />
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

import { Fragment } from "react";
import { proofCells, proofHeads } from "../../job/rollups/proof";
import { api } from "./api";
import { LinesTable } from "./lines-table";
import { Issues } from "./parts";
import { useLines } from "./use-lines";

/** The performance record: each figure as found, as left and by the model; unlike ones are kept apart. */
export function ProofPage({ name, version }: { readonly name: string; readonly version: number }) {
  const { lines, issues } = useLines(api.proof, name, version);
  return (
    <main>
      <h1>Performance record</h1>
      <Issues of={issues} />
      <p role="status" className="quiet">
        {lines === undefined && issues.length === 0
          ? "Asking the model…"
          : lines?.length === 0
            ? "Nothing measured yet. Read a sweep in under Readings and work, or write the performance sheet on its record card."
            : "What was measured, with its method and conditions. Values are compared only where both were taken the same way."}
      </p>
      {lines !== undefined && lines.length > 0 && (
        <LinesTable
          className="figures parts proof"
          heads={proofHeads}
          lines={lines}
          keyOf={(l) => [l.figure, l.where].join()}
          rowClass={(l) => (l.refused ? "refused" : "")}
          cells={(l) =>
            proofCells(l).map((c, i) =>
              i === proofHeads.length - 1 && l.refused ? (
                <Fragment key="says">
                  <strong>Check </strong>
                  {c}
                </Fragment>
              ) : (
                c
              ),
            )
          }
        />
      )}
    </main>
  );
}

import { proofCells, proofHeads } from "../../job/rollups/proof";
import { api } from "./api";
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
            : "What was measured, with its method and conditions. Figures are compared only where both were taken the same way."}
      </p>
      {lines !== undefined && lines.length > 0 && (
        <table className="figures parts proof">
          <thead>
            <tr>
              {proofHeads.map((h) => (
                <th scope="col" key={h}>
                  {h}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {lines.map((l) => (
              <tr key={[l.figure, l.where].join()} className={l.refused ? "refused" : ""}>
                {proofCells(l).map((c, i) => (
                  <td key={proofHeads[i]} data-head={proofHeads[i]}>
                    {i === 6 && l.refused ? <strong>Check </strong> : null}
                    {c}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </main>
  );
}

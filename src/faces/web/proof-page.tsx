import { Fragment } from "preact/compat";
import { type ProofLine, proofCells, proofHeads } from "../../job/rollups/proof/line";
import { api } from "./api";
import { LinesTable } from "./lines-table";
import { Issues } from "./parts";
import { useLines } from "./use-lines";

/** Figures as found and as left beside the chart's and the model's; unlike ones are kept apart. */
export function ProofLines({ of: lines }: { readonly of: readonly ProofLine[] }) {
  if (lines.length === 0) return null;
  const chart = lines.some((l) => l.chart);
  // the chart's own figure stands before what was read
  const withChart = <T,>(cells: readonly T[], own: T): readonly T[] => (chart ? [...cells.slice(0, 2), own, ...cells.slice(2)] : cells);
  const heads = withChart<string>(proofHeads, "By the chart");
  return (
    <LinesTable
      className="figures parts proof"
      heads={heads}
      lines={lines}
      keyOf={(l) => [l.figure, l.where].join()}
      rowClass={(l) => (l.refused ? "refused" : "")}
      cells={(l) =>
        withChart(proofCells(l), l.chart ?? "").map((c, i) =>
          i === heads.length - 1 && l.refused ? (
            <Fragment key="says">
              <strong>Check </strong>
              {c}
            </Fragment>
          ) : i === heads.length - 1 && l.isOff ? (
            <strong key="says" className="isoff">
              △ {c}
            </strong>
          ) : (
            c
          ),
        )
      }
    />
  );
}

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
            ? "Nothing measured yet. Read a sweep in under Readings, or fill in the performance sheet."
            : "What was measured, with its method and conditions. Values are compared only where both were taken the same way."}
      </p>
      <ProofLines of={lines ?? []} />
    </main>
  );
}

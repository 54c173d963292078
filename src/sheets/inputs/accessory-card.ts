import type { Bench } from "../../set/bench";
import type { Column, FromCard, Row } from "../../set/columns";
import { accessoryKind, accessoryLabel } from "./accessory";
import { surveyColumns, surveyHeadings, surveyLeft } from "./capacitor-card";
import { mendedIn, readCard } from "./card-rows";

const { kind, duty, value, rating, leakage, part } = surveyColumns;
/** Columns of an accessory's survey: those of the set's own, with the value that a bridge gives. */
export const accessoryColumns = {
  kind,
  duty,
  value,
  measured: { dimension: "capacitance", meaning: "capacitance measured, with its unit", optional: true },
  rating,
  leakage,
  part,
} as const satisfies Readonly<Record<string, Column>>;

const plain = (said: string): string =>
  said
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, " ");
/** Whether a row of the card is of the accessory that is asked about; a row that names none counts for each. */
function isOfThis(bench: Bench, said: string): boolean {
  const names = [accessoryLabel(bench), accessoryKind(bench), bench.at.split(".")[1] ?? ""].map(plain);
  return said.trim() === "" || names.includes(plain(said));
}

/**
 * The survey of an accessory's capacitors, as its card has it. What was mended since is out; in series at B+ the new one is judged in its place, since
 * nothing is trusted there that was not measured.
 *
 * @param bench where the card is
 * @returns rows, and what could not be read; undefined where the card has none of this accessory
 * @source house format
 */
export function accessorySurvey(bench: Bench): FromCard | readonly Row[] | undefined {
  const all = bench.card("accessory-capacitors").filter((r) => isOfThis(bench, r.Accessory ?? ""));
  if (all.length === 0) return undefined;
  const rows = all.filter((r) => !r[mendedIn] || (/^series/i.test(r.Duty ?? "") && r.Value !== ""));
  return surveyLeft(
    readCard({ ...bench, card: () => rows }, "accessory-capacitors", "accessory's capacitors", accessoryColumns, {
      ...surveyHeadings,
      measured: { heading: "Measured value" },
    }),
  );
}

import { findingById } from "../units/by-id";
import { type Form, forms } from "./card-list";

export { type Form, forms };

/** Fields of a card that are shown: its own, and earlier ones that hold something. */
export const fieldsOf = (form: Form, written: Readonly<Record<string, string>>): readonly string[] => [
  ...form.fields,
  ...(form.earlier ?? []).filter((f) => (written[f] ?? "") !== ""),
];
export const mostRows = 999;
/** Number of the row that a field such as `row 12: Tube` is a cell of, 1 to the most; undefined where it is none. */
export const rowOfField = (field: string): number | undefined => {
  const n = /^row ([1-9]\d{0,2}): /.exec(field)?.[1];
  return n === undefined ? undefined : Number(n);
};
/** Whether a card has a field of this name, be it an earlier one or a cell of its table. */
export const hasField = (form: Form, field: string): boolean =>
  form.fields.includes(field) ||
  (form.earlier ?? []).includes(field) ||
  (rowOfField(field) !== undefined && (form.columns ?? []).includes(field.slice(field.indexOf(": ") + 2)));
export const formById = findingById(forms);

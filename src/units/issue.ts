/** What is wrong with one piece of input: as data, so that every face prints it in its own way. */
export interface Issue {
  /** field, line or file position that the trouble sits at */
  readonly path: string;
  /** stable id of the kind of trouble */
  readonly code: string;
  /** what was read */
  readonly read: string;
  /** what was expected */
  readonly expected: string;
  /** what must come first, by its id, where that is what is wrong */
  readonly needs?: string;
}

export type Read<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly issues: readonly Issue[] };

export const good = <T>(value: T): Read<T> => ({ ok: true, value });
export const bad = (
  path: string,
  code: string,
  read: string,
  expected: string,
): { readonly ok: false; readonly issues: readonly Issue[] } => ({
  ok: false,
  issues: [{ path, code, read: clip(read), expected }],
});

/** One line a person can act on: where, what was read, what was expected. */
export const sayIssue = (i: Issue): string =>
  i.read === "" ? `${i.path}: nothing given, expected ${i.expected}` : `${i.path}: read "${i.read}", expected ${i.expected}`;

/** Input as it may be shown: printable and short. */
export const clip = (text: string): string => {
  const seen = Array.from(text.slice(0, 80), (c) => ((c.codePointAt(0) ?? 0) < 32 ? "·" : c)).join("");
  return text.length > 80 ? `${seen.slice(0, 60)}… (${text.length} characters)` : seen;
};

/** Bad input met at an edge, carried as issues. */
export class InputError extends Error {
  constructor(readonly issues: readonly Issue[]) {
    super(issues.map(sayIssue).join("\n"));
    this.name = "InputError";
  }
}

export const orThrow = <T>(r: Read<T>): T => {
  if (r.ok) return r.value;
  throw new InputError(r.issues);
};

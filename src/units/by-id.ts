/**
 * Finds members of a list by their ids, each in one step however many there are; of two of one id the first.
 *
 * @param all the list; it stays as it is
 * @returns what finds one; undefined where none has that id
 * @source house frame
 */
export function findingById<Id extends string, T extends { readonly id: Id }>(all: readonly T[]): (id: string) => T | undefined {
  const byId = new Map<string, T>();
  for (const x of all) if (!byId.has(x.id)) byId.set(x.id, x);
  return (id) => byId.get(id);
}

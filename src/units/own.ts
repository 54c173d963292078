/** A member that a record holds itself, by a name that came from outside: never one of its prototype, whatever the name may be. */
export const own = <T>(record: Readonly<Record<string, T>> | undefined, name: string): T | undefined =>
  record !== undefined && Object.hasOwn(record, name) ? record[name] : undefined;

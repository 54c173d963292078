/** The database in words that may stand on a screen or in a log: never its password. */
export function whereIs(url: string): string {
  try {
    const { hostname, port, pathname, searchParams } = new URL(url);
    const host = hostname || searchParams.get("host") || "this machine";
    return `the shop's database (${decodeURIComponent(pathname.slice(1)) || "unnamed"} at ${host}${port ? `:${port}` : ""})`;
  } catch {
    return "the shop's database";
  }
}

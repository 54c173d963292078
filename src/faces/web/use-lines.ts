import { useEffect, useState } from "preact/compat";
import type { LeftOut } from "../../desk/left-out";
import type { Issue } from "../../units/issue";
import { issuesOf } from "./task";

/** Lines that the server works out from a job: asked for again whenever the store has changed, dropped when the page is left. */
export function useLines<T>(
  load: (name: string, signal: AbortSignal) => Promise<{ readonly lines: readonly T[]; readonly leftOut?: readonly LeftOut[] }>,
  name: string,
  version: number,
): { readonly lines: readonly T[] | undefined; readonly leftOut: readonly LeftOut[]; readonly issues: readonly Issue[] } {
  const [lines, setLines] = useState<readonly T[]>();
  const [leftOut, setLeftOut] = useState<readonly LeftOut[]>([]);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: worked out again whenever the store has changed
  useEffect(() => {
    const stop = new AbortController();
    load(name, stop.signal).then(
      (r) => {
        setIssues([]);
        setLines(r.lines);
        setLeftOut(r.leftOut ?? []);
      },
      (e) => !stop.signal.aborted && setIssues(issuesOf(e)),
    );
    return () => stop.abort();
  }, [name, version]);
  return { lines, leftOut, issues };
}

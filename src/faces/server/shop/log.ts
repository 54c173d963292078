/** One line of the log: what is said of a request is these members and no other, so that no secret of its address, heads or body can get in. */
export type LogLine =
  | { readonly event: "started"; readonly at: string; readonly address: string; readonly home: string }
  | { readonly event: "warning"; readonly at: string; readonly says: string }
  | { readonly event: "stopped"; readonly at: string }
  | {
      readonly event: "request";
      readonly at: string;
      /** method and pattern of the route, never the address itself */
      readonly route: string;
      readonly status: number;
      readonly ms: number;
      readonly from: string;
      readonly who?: string;
    }
  | { readonly event: "defect"; readonly at: string; readonly route: string; readonly kind: string };

/**
 * Writes lines of requests that end in one turn together, since whoever writes waits for whoever reads; what else is said comes at once, after them.
 *
 * @param write takes one or several lines
 */
export function linesTogether(write: (text: string) => void): (line: LogLine) => void {
  let waiting: string[] = [];
  const out = (): void => {
    if (waiting.length > 0) write(waiting.join("\n"));
    waiting = [];
  };
  return (line) => {
    waiting.push(asJson(line));
    if (line.event !== "request") out();
    else if (waiting.length === 1) setImmediate(out);
  };
}

/** A line of JSON, one an event. Source: RFC 8259 */
export const asJson = (line: LogLine): string => JSON.stringify(line);

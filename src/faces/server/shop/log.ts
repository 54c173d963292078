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

/** A line of JSON, one an event. Source: RFC 8259 */
export const asJson = (line: LogLine): string => JSON.stringify(line);

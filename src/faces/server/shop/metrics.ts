/** Upper ends of the classes that times of answers are counted in, s. Common practice, no source. */
const classesS = [0.01, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10];

/** Counts of what a server does. */
export interface Metrics {
  readonly answered: (route: string, status: number, seconds: number) => void;
  readonly signIn: (result: "in" | "no" | "later") => void;
  readonly listening: (by: 1 | -1) => void;
  /** all of it as text */
  readonly text: (store: boolean) => string;
}
/** The type that it is served as. Source: OpenMetrics 1.0, section on the text format */
export const metricsType = "application/openmetrics-text; version=1.0.0; charset=utf-8";

const escaped = (s: string): string => s.replace(/\\/g, "\\\\").replace(/\n/g, "\\n").replace(/"/g, '\\"');
const labels = (of: Readonly<Record<string, string>>): string => {
  const all = Object.entries(of).map(([k, v]) => `${k}="${escaped(v)}"`);
  return all.length > 0 ? `{${all.join(",")}}` : "";
};

/**
 * Counts of one server since it started, in an open format. Source: OpenMetrics 1.0 (text format): metadata before each family, `_total` behind a counter,
 * classes that add up, an end mark.
 *
 * @param startedS when it started, s since 1970
 * @param memoryBytes what it takes up now
 */
export function metrics(startedS: number, memoryBytes: () => number): Metrics {
  const requests = new Map<string, number>();
  const signIns = new Map<string, number>();
  const below = classesS.map(() => 0);
  let [count, sum, streams] = [0, 0, 0];
  const more = (of: Map<string, number>, key: string): void => void of.set(key, (of.get(key) ?? 0) + 1);
  const family = (name: string, type: string, help: string, lines: readonly string[], unit = ""): string[] => [
    `# TYPE ${name} ${type}`,
    ...(unit === "" ? [] : [`# UNIT ${name} ${unit}`]),
    `# HELP ${name} ${help}`,
    ...lines,
  ];
  const gauge = (name: string, help: string, value: number, unit = "") => family(name, "gauge", help, [`${name} ${value}`], unit);
  return {
    answered: (route, status, seconds) => {
      more(requests, labels({ route, status: String(status) }));
      count++;
      sum += seconds;
      for (const [i, end] of classesS.entries()) if (seconds <= end) below[i]++;
    },
    signIn: (result) => more(signIns, labels({ result })),
    listening: (by) => {
      streams += by;
    },
    text: (store) => {
      const time = "fettle_request_seconds";
      return [
        ...family(
          "fettle_requests",
          "counter",
          "Requests answered.",
          [...requests].map(([l, n]) => `fettle_requests_total${l} ${n}`),
        ),
        ...family(
          time,
          "histogram",
          "Time from a request to its answer.",
          [
            ...classesS.map((end, i) => `${time}_bucket{le="${end.toFixed(2).replace(/(\.\d)0$/, "$1")}"} ${below[i]}`),
            `${time}_bucket{le="+Inf"} ${count}`,
            `${time}_sum ${sum}`,
            `${time}_count ${count}`,
          ],
          "seconds",
        ),
        ...family(
          "fettle_sign_ins",
          "counter",
          "Tries to sign in.",
          [...signIns].map(([l, n]) => `fettle_sign_ins_total${l} ${n}`),
        ),
        ...gauge("fettle_pages_listening", "Pages that are told of changes.", streams),
        ...gauge("fettle_store_up", "1 where the store answers.", store ? 1 : 0),
        ...gauge("fettle_memory_bytes", "Memory that the server takes up.", memoryBytes(), "bytes"),
        ...gauge("fettle_start_time_seconds", "When the server started, since 1970.", startedS, "seconds"),
        "# EOF\n",
      ].join("\n");
    },
  };
}

/** The counts as text, read back by the rules of the standard. */
import { describe, expect, it } from "vitest";
import { metrics, metricsType } from "./metrics";

/** Reads by the grammar and the rules. Source: OpenMetrics 1.0.0, sections "Text format" (ABNF), "Counter", "Histogram" */
function read(text: string): Map<string, number> {
  expect(text.endsWith("# EOF\n")).toBe(true);
  const [values, types] = [new Map<string, number>(), new Map<string, string>()];
  let family = "";
  for (const line of text.slice(0, -"# EOF\n".length).trimEnd().split("\n")) {
    const meta = /^# (TYPE|UNIT|HELP) ([a-zA-Z_:][\w:]*) (.+)$/.exec(line);
    if (meta) {
      const [, what, name, rest] = meta;
      if (what === "TYPE") {
        expect(types.has(name), name).toBe(false);
        expect(["counter", "gauge", "histogram"]).toContain(rest);
        types.set(name, rest);
        family = name;
      }
      // metadata stands with its family; a unit ends the name
      expect(name).toBe(family);
      if (what === "UNIT") expect(name.endsWith(`_${rest}`)).toBe(true);
      continue;
    }
    const m = /^([a-zA-Z_:][\w:]*)(\{(?:[a-zA-Z_]\w*="(?:[^"\\\n]|\\["\\n])*",?)*\})? (\S+)$/.exec(line);
    expect(m, line).not.toBeNull();
    const [, name, labels = "", value] = m!;
    const type = types.get(family);
    const ends = { counter: ["_total"], gauge: [""], histogram: ["_bucket", "_sum", "_count"] }[type as "gauge"];
    expect(
      ends.map((e) => family + e),
      line,
    ).toContain(name);
    expect(values.has(name + labels), line).toBe(false);
    values.set(name + labels, Number(value));
    expect(Number.isFinite(Number(value)), line).toBe(true);
  }
  return values;
}

describe("counts in an open format", () => {
  it("are of its type, and say what was counted", () => {
    expect(metricsType).toBe("application/openmetrics-text; version=1.0.0; charset=utf-8");
    const m = metrics(1_700_000_000, () => 5e7);
    read(m.text(true));
    m.answered('GET /a"\\\n', 200, 0.02);
    m.answered("GET /b", 404, 0.3);
    m.answered("GET /b", 404, 60);
    m.signIn("no");
    m.listening(1);
    m.listening(1);
    m.listening(-1);
    const got = read(m.text(false));
    expect(got.get('fettle_requests_total{route="GET /b",status="404"}')).toBe(2);
    expect(got.get('fettle_requests_total{route="GET /a\\"\\\\\\n",status="200"}')).toBe(1);
    expect(got.get("fettle_request_seconds_count")).toBe(3);
    expect(got.get("fettle_request_seconds_sum")).toBeCloseTo(60.32, 9);
    const classes = [...got].filter(([k]) => k.startsWith("fettle_request_seconds_bucket")).map(([, v]) => v);
    expect(classes).toEqual([0, 1, 1, 1, 2, 2, 2, 2, 2, 3]);
    expect(got.get('fettle_sign_ins_total{result="no"}')).toBe(1);
    expect([got.get("fettle_pages_listening"), got.get("fettle_store_up"), got.get("fettle_memory_bytes")]).toEqual([1, 0, 5e7]);
  });
});

import { describe, expect, it } from "vitest";
import type { Table } from "./drawings";
import { sayCell } from "./say";

describe("a cell of a table", () => {
  const table: Table = {
    id: "t",
    title: "t",
    columns: [{ name: "ripple", dimension: "voltage", u: 1e-3, part: 0.02 }],
    rows: [],
  };
  it("has no more digits than a part of itself is known to, nor than its column is", () => {
    expect([9.6921, 0.0962, 0.01012].map((v) => sayCell(table, v, 0))).toEqual(["9.69 V", "96.2 mV", "10.1 mV"]);
  });
});

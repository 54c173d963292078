import { expect, it } from "vitest";
import { readDefinition } from "./definition";

it.each([["10 dB (S+N)/N, AM 30 %, 6 kHz, 50 ohm, p.d."], ["p.d., 50 Ω, 6 kc, AM 30%, 10 dB (s+n)/n"]])("reads %s", (text) => {
  expect(readDefinition(text, "cell")).toEqual({
    ok: true,
    value: { ratio: "(S+N)/N", db: 10, mode: "AM", depth: 0.3, bandwidthHz: 6000, sourceOhm: 50, level: "p.d." },
  });
});
it("reads one of CW and SINAD by EMF", () => {
  const r = readDefinition("12 dB SINAD, CW, 500 Hz, 75 ohm, EMF", "cell");
  expect(r.ok && r.value).toMatchObject({ ratio: "SINAD", db: 12, mode: "CW or SSB", bandwidthHz: 500, sourceOhm: 75, level: "EMF" });
});
it("says what is missing", () => {
  const r = readDefinition("10 dB (S+N)/N, 50 ohm", "cell");
  expect(r.ok ? "" : r.issues[0].expected).toMatch(/modulation.*bandwidth.*p\.d\. or EMF/);
});

import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import type { Circuit } from "../../ask/drawn/circuit";
import { benchOfSet, subjectsOf } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { asRead } from "../../sheets/as-read.testdata";
import { sheets } from "../../sheets/index";
import { orThrow } from "../../units/issue";
import { planOf } from "./circuit-plan";

const set = { ...patterns[1], chassis: { state: "isolated" as const, isolation: "none" as const, note: "" } };
const circuits = sheets.flatMap((s) => {
  const at = subjectsOf(set, s.subject, s.fitting, s.stageKinds)[0] ?? "";
  const a = orThrow(answer(s, benchOfSet(set, at), { draws: 10, points: 21, overrides: asRead(s) }));
  return a.drawn.flatMap((p): (readonly [string, Circuit])[] => (p.kind === "circuit" ? [[`${s.id}: ${p.title}`, p]] : []));
});
/** Places where a part or a wire runs through a point of the circuit that it does not end at: drawn so, it would be joined there. */
function falselyJoined(circuit: Circuit, width: number): string[] {
  const { laid } = planOf(circuit, width);
  return laid.parts.flatMap(({ part, path }) =>
    laid.nodes
      .filter(({ node }) => node.id !== part.from && node.id !== part.to)
      .filter(({ x, y }) =>
        path.slice(1).some(([x1, y1], i) => {
          const [x0, y0] = path[i];
          const across = Math.abs((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / (Math.hypot(x1 - x0, y1 - y0) || 1);
          const inside = x >= Math.min(x0, x1) - 1 && x <= Math.max(x0, x1) + 1 && y >= Math.min(y0, y1) - 1 && y <= Math.max(y0, y1) + 1;
          return across < 2 && inside;
        }),
      )
      .map(({ node }) => `${part.kind} ${part.from} to ${part.to} runs through ${node.id}`),
  );
}

it.each(circuits)("%s: no wire runs through a point that it isn't joined to, on a phone or on a wide screen", (_, circuit) => {
  for (const width of [350, 640, 900]) expect(falselyJoined(circuit, width), `${width} px`).toEqual([]);
});

/** Circuits of all questions on a phone: as much as fits stands in words where the hands go, and nothing is lost of what stands below instead. */
import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import type { Circuit } from "../../ask/drawn/circuit";
import { kills } from "../../ask/drawn/volts";
import { benchOfSet, subjectsOf } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { sheets } from "../../sheets";
import { orThrow } from "../../units/issue";
import { planOf } from "./circuit-plan";

const onPhonePx = 358;
const onDeskPx = 900;
const [, set] = patterns;
const circuits = sheets.flatMap((s) =>
  ["", ...subjectsOf(set, s.subject, s.fitting, s.stageKinds)].flatMap((at) => {
    const a = orThrow(answer(s, benchOfSet(set, at), { draws: 20, points: 21 }));
    return a.drawn.flatMap((d) => (d.kind === "circuit" ? [[`${s.id} ${at}`, d] as const] : []));
  }),
);
const chassis = (of: object): boolean => "end" in of && (of.end === "chassis" || of.end === "live-chassis");
const plain = (text: string): string => text.replace(/\s+/g, " ");
/** What is named or measured on the wide page. */
const labelled = (c: Circuit): ReadonlySet<object> =>
  new Set(planOf(c, onDeskPx).laid.words.flatMap(({ of }) => (chassis(of) ? [] : [of])));

describe.each(circuits)("%s on a phone", (_, circuit) => {
  const { laid, keyed } = planOf(circuit, onPhonePx);
  it("says of at least half of what is drawn what it is, beside it", () => {
    expect(keyed.length).toBeLessThanOrEqual(labelled(circuit).size / 2);
  });
  it("has words or one key for everything that has words on the wide page, and tells each key once", () => {
    const said = laid.words.filter(({ of }) => !chassis(of));
    expect(new Set(said.map(({ of }) => of))).toEqual(labelled(circuit));
    expect(said.filter(({ words }) => words.lines.length === 0 && words.key === undefined)).toEqual([]);
    const keys = said.flatMap(({ words }) => words.key ?? []).sort((a, b) => a - b);
    expect(keys).toEqual(keyed.map(({ key }) => key));
  });
  it("drops no word more that is said of a part, as what it has to stand", () => {
    for (const p of circuit.parts.filter((p) => p.says)) {
      const { words } = laid.words.find(({ of }) => of === p)!;
      const told = words.lines.map((l) => l.text).join(" ") + keyed.filter(({ key }) => key === words.key).map(({ says }) => says);
      expect(plain(told)).toContain(plain(p.says ?? ""));
    }
  });
  it("warns wherever volts can kill", () => {
    const deadly = circuit.nodes.filter((n) => n.volts && kills(n.volts) && !chassis(n) && (n.label || n.end === "onward"));
    for (const n of deadly) expect(laid.words.find(({ of }) => of === n)?.words.danger, n.id).toBe(true);
  });
});

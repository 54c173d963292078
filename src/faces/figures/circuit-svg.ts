import type { Circuit } from "../../ask/drawn/circuit";
import { keyPx, signPx } from "./circuit-labels";
import type { Laid, LaidPart, LaidWords } from "./circuit-laid";
import { planOf } from "./circuit-plan";
import { braidShape, endShapes, screenLead, shapeOf, tubeShape } from "./circuit-symbols";
import { circuitWords } from "./circuit-words";
import { dangerSign, framed, linePx, n, textLine, textPx } from "./picture-text";
import { dayInk, exampleAcross, type Ink } from "./svg";
import { linesWithin } from "./text-width";

function wordsSvg(w: LaidWords, ink: Ink): string {
  const sign = w.words.danger ? dangerSign(w.x + 11, w.y + (w.words.key ? keyPx / 2 : linePx / 2), ink) : "";
  const x = w.x + (w.words.danger ? signPx : 0);
  if (w.words.key !== undefined) {
    const middle = { x: x + keyPx / 2, y: w.y + keyPx / 2 };
    return `${sign}<circle cx="${n(middle.x)}" cy="${n(middle.y)}" r="${keyPx / 2 - 1.5}" fill="none" stroke="${ink.ink}" stroke-width="1.4"/>${textLine(middle.x, middle.y - 9.5, { text: String(w.words.key), bold: true, tone: "ink" }, ink, "middle")}${w.words.lines.map((l) => textLine(x + keyPx + 4, middle.y - 9.5, l, ink)).join("")}`;
  }
  // with the sign of danger before them, lines begin at the sign's right; else they lie as their anchor says
  const anchored = w.anchor === "start" || w.words.danger ? x : w.anchor === "end" ? x + w.width : x + w.width / 2;
  const anchor = w.words.danger ? "start" : w.anchor;
  return sign + w.words.lines.map((l, i) => textLine(anchored, w.y + i * linePx, l, ink, anchor)).join("");
}

const pathOf = (points: LaidPart["path"]): string => points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${n(x)} ${n(y)}`).join("");

/** Leads of a part: its whole path, broken where the symbol stands. */
function partSvg(p: LaidPart, circuit: Circuit, ink: Ink): string {
  const marked = p.part.mark !== undefined;
  const colour = marked ? ink.accent : ink.ink;
  const stroke = `fill="none" stroke="${colour}" stroke-width="${marked ? 3 : 2}" stroke-linejoin="round" stroke-linecap="round"`;
  if (p.part.kind === "wire") return `<path d="${pathOf(p.path)}" ${stroke}/>`;
  const shape = shapeOf(p.part.kind, circuit.symbols);
  const h = (p.box ? (p.turned ? p.box.height : p.box.width) : shape.length) / 2;
  const [first, last] = [p.path[0], p.path[p.path.length - 1]];
  // the symbol's own ends, on the side of each end of the path
  const side = p.turned ? Math.sign(last[1] - (p.path.at(-2)?.[1] ?? 0)) : Math.sign(last[0] - first[0]);
  const near: readonly [number, number] = p.turned ? [p.x, p.y - side * h] : [p.x - side * h, p.y];
  const far: readonly [number, number] = p.turned ? [p.x, p.y + side * h] : [p.x + side * h, p.y];
  const leads = `<path d="${pathOf([...p.path.slice(0, -1), near])}${pathOf([far, last])}" ${stroke}/>`;
  if (p.box) return `${leads}<rect x="${n(p.box.x)}" y="${n(p.box.y)}" width="${n(p.box.width)}" height="${n(p.box.height)}" ${stroke}/>`;
  const turn = p.turned ? (side > 0 ? 90 : -90) : side > 0 ? 0 : 180;
  const glow =
    p.part.glow === undefined
      ? ""
      : `<circle r="17" fill="${ink.accent}" fill-opacity="${n(Math.min(1, Math.max(0, p.part.glow)) * 10) === "0" ? 0 : n(0.1 + 0.7 * Math.min(1, p.part.glow))}"/>`;
  const braid = p.part.braid && braidShape(p.part.braid, p.turned);
  const sign = braid
    ? `<path transform="translate(${n(p.x + braid.at[0])} ${n(p.y + braid.at[1])})" d="${braid.strokes}" fill="none" stroke="${ink.ink}" stroke-width="2" stroke-linecap="round" stroke-linejoin="round"/>`
    : "";
  return `${leads}${sign}<g transform="translate(${n(p.x)} ${n(p.y)}) rotate(${turn})">${glow}<path d="${shape.strokes}" ${stroke}/>${shape.fill ? `<path d="${shape.fill}" fill="${colour}"/>` : ""}</g>`;
}

function nodesSvg(laid: Laid, ink: Ink): string {
  const stroke = `fill="none" stroke="${ink.ink}" stroke-width="2" stroke-linecap="round" stroke-linejoin="round"`;
  return laid.nodes
    .map(({ node, x, y, joins, away }) => {
      const at = `transform="translate(${n(x)} ${n(y)})`;
      if (node.end === "terminal")
        return `<circle cx="${n(x)}" cy="${n(y)}" r="4.5" fill="${ink.paper}" stroke="${ink.ink}" stroke-width="2"/>`;
      if (node.end === "onward")
        return `<path ${at} rotate(${{ right: 0, down: 90, left: 180, up: 270 }[away]})" d="M-8 -5L2 0L-8 5" ${stroke}/>`;
      if (node.end) return `<path ${at}" d="${endShapes[node.end]}" ${stroke}/>`;
      return joins > 2 ? `<circle cx="${n(x)}" cy="${n(y)}" r="4" fill="${ink.ink}"/>` : "";
    })
    .join("");
}

/** An outline round what stands in one can, with the words of its parts. */
function cansSvg(laid: Laid, circuit: Circuit, ink: Ink): string {
  const names = [...new Set(laid.parts.flatMap((p) => p.part.can ?? []))];
  return names
    .map((can) => {
      const own = laid.parts.filter((p) => p.part.can === can);
      const boxes = own.flatMap((p) => {
        const { length, half } = shapeOf(p.part.kind, circuit.symbols);
        const [w, h] = p.turned ? [2 * half, length] : [length, 2 * half];
        return [{ x: p.x - w / 2, y: p.y - h / 2, width: w, height: h }, ...laid.words.filter((o) => o.of === p.part)];
      });
      const [left, top] = [Math.min(...boxes.map((b) => b.x)) - 6, Math.min(...boxes.map((b) => b.y)) - 4];
      const [right, foot] = [Math.max(...boxes.map((b) => b.x + b.width)) + 4, Math.max(...boxes.map((b) => b.y + b.height)) + 4];
      return `<rect class="can" x="${n(left)}" y="${n(top)}" width="${n(right - left)}" height="${n(foot - top)}" rx="6" fill="none" stroke="${ink.faint}" stroke-width="1.6" stroke-dasharray="7 5"/>`;
    })
    .join("");
}

/** A thin line from a node up to its words, where other words stand between. */
function poles(laid: Laid, ink: Ink): string {
  return laid.words
    .flatMap((w) => {
      const at = laid.nodes.find((o) => o.node === w.of);
      if (!at || w.anchor !== "middle" || at.y - (w.y + w.height) < 10) return [];
      return [`<path d="M${n(at.x)} ${n(at.y)}V${n(w.y + w.height + 1)}" stroke="${ink.faint}" stroke-width="1" stroke-dasharray="2 3"/>`];
    })
    .join("");
}

/** What stands below: each key with its words, what kills, what is assumed. */
function below(
  circuit: Circuit,
  plan: ReturnType<typeof planOf>,
  width: number,
  ink: Ink,
): { readonly svg: string; readonly height: number } {
  let y = 4;
  const out: string[] = [];
  const write = (x: number, text: string, bold = false): void => {
    for (const line of linesWithin(text, width - x - 8, textPx)) {
      out.push(textLine(x, y, { text: line, bold, tone: "ink" }, ink));
      y += linePx;
    }
    y += 4;
  };
  for (const k of plan.keyed) {
    out.push(textLine(8, y, { text: String(k.key), bold: true, tone: "ink" }, ink));
    write(36, k.says);
  }
  if (plan.foot.danger) {
    out.push(dangerSign(20, y + 10, ink));
    write(36, plan.foot.danger, true);
  }
  if (plan.foot.quiet) write(8, plan.foot.quiet);
  return { svg: out.join(""), height: circuit.parts.length === 0 ? 0 : y };
}

/**
 * Draws a circuit for a width: the same picture for the page and for print.
 *
 * @param circuit the circuit
 * @param width px that it is drawn for: its text is 16 px there
 * @param ink colours
 * @returns SVG markup and its height
 */
export function circuitSvg(circuit: Circuit, width: number, ink: Ink = dayInk): { readonly svg: string; readonly height: number } {
  const plan = planOf(circuit, width);
  const { laid } = plan;
  const full = Math.max(width, laid.width);
  const left = (full - laid.width) / 2;
  const tubeStroke = `fill="none" stroke="${ink.ink}" stroke-width="2" stroke-linejoin="round" stroke-linecap="round"`;
  const tubes = laid.tubes.map(
    ({ tube, x, y }) =>
      `<path transform="translate(${n(x)} ${n(y)})" d="${tubeShape(tube.grids)}${tube.screen ? screenLead(tube.grids) : ""}" ${tubeStroke}/>${tubeLeads(laid, tube, x, y, tubeStroke)}`,
  );
  const marked = (p: LaidPart): number => (p.part.mark ? 1 : 0);
  const parts = [...laid.parts].sort((a, b) => marked(a) - marked(b)).map((p) => partSvg(p, circuit, ink));
  const foot = below(circuit, plan, full, ink);
  const height = laid.height + foot.height;
  const body = [
    cansSvg(laid, circuit, ink),
    ...tubes,
    ...parts,
    nodesSvg(laid, ink),
    poles(laid, ink),
    ...laid.words.map((w) => wordsSvg(w, ink)),
  ].join("");
  const across = circuit.example ? exampleAcross(full, laid.height, ink.faint) : "";
  return {
    height,
    svg: framed(
      { width: full, height },
      { title: circuit.title, words: circuitWords(circuit) },
      `<g transform="translate(${n(left)} 0)">${body}</g>${across}<g transform="translate(0 ${n(laid.height)})">${foot.svg}</g>`,
    ),
  };
}

/** Leads of a tube from its envelope to the nodes of its electrodes. */
function tubeLeads(laid: Laid, tube: Laid["tubes"][number]["tube"], x: number, y: number, stroke: string): string {
  const at = (id: string | undefined) => laid.nodes.find((o) => o.node.id === id);
  const [plate, cathode, grid, screen] = [tube.plate, tube.cathode, tube.grid, tube.screen].map(at);
  const r = 32;
  const line = (d: string): string => `<path d="${d}" ${stroke}/>`;
  return [
    plate ? line(`M${n(x)} ${n(y - r)}V${n(plate.y)}`) : "",
    cathode ? line(`M${n(x)} ${n(y + r)}V${n(cathode.y)}`) : "",
    grid ? line(`M${n(x - r)} ${n(y)}H${n(grid.x)}`) : "",
    screen ? line(`M${n(x + r)} ${n(y)}H${n(screen.x)}`) : "",
  ].join("");
}

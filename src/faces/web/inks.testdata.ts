/**
 * How text stands on what is painted under it: its colour, size and weight, what its ancestors paint, and what lies across it. Two texts of one ink have one
 * contrast, so axe-core, which takes long over it, is asked about an ink until one text of it has passed.
 */
import type { Page } from "playwright-core";
import { withAxe } from "./in-browser.testdata";

/** What axe-core asks of inks. */
export const inkRules: readonly string[] = ["color-contrast", "link-in-text-block"];
interface Watched extends Window {
  inkOf?: ReadonlyMap<Element, string>;
}
/** Notes the ink of every text that is seen on the page, and gives each ink once. */
const inks = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const clear = "rgba(0, 0, 0, 0)";
    const seen = [...document.querySelectorAll("html, body, body *")].filter((e) => e.checkVisibility());
    const before = (e: Element, which: string): string => {
      // nothing in a drawing has one
      if (e instanceof SVGElement) return "";
      const s = getComputedStyle(e, which);
      return s.content === "none" ? "" : `${which} ${s.content === "normal" ? "" : s.backgroundColor}`;
    };
    const painted = new Map<Element, string>();
    for (const e of seen) {
      const s = getComputedStyle(e);
      const fill = e instanceof SVGGeometryElement && s.fill !== "none" ? `${s.fill} ${s.fillOpacity}` : "";
      const paints = s.backgroundColor !== clear || s.backgroundImage !== "none" || s.opacity !== "1" || s.filter !== "none" || fill !== "";
      const around = `${before(e, "::before")}${before(e, "::after")}`;
      if (paints || around) painted.set(e, [s.backgroundColor, s.backgroundImage, s.opacity, s.filter, fill, around].join(" "));
    }
    const boxes = [...painted].map(([e, what]) => [e, what, e.getBoundingClientRect()] as const);
    const texts = seen.filter(
      (e) => e.matches("input, select, textarea") || [...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.nodeValue?.trim()),
    );
    const inkOf = new Map<Element, string>();
    for (const e of texts) {
      const s = getComputedStyle(e);
      const b = e.getBoundingClientRect();
      const under: string[] = [];
      for (const [p, what, q] of boxes) {
        if (q.left >= b.right || q.right <= b.left || q.top >= b.bottom || q.bottom <= b.top) continue;
        if (p.contains(e)) under.push(what);
        else if (!e.contains(p)) under.push(`across: ${what}`);
      }
      const link = e.matches("a") && e.parentElement ? getComputedStyle(e.parentElement).color : "";
      const own = [s.color, s.fill, s.fontSize, s.fontWeight, s.textShadow, s.textDecorationLine, link];
      inkOf.set(e, [...own, ...new Set(under)].join(" / "));
    }
    (window as Watched).inkOf = inkOf;
    return [...new Set(inkOf.values())];
  });

/** Rules of axe-core on colours that a page breaks, asked of what has an ink that is not among those that passed; what passes is put among them. */
export async function inkViolations(page: Page, passed: Set<string>): Promise<readonly string[]> {
  const fresh = (await inks(page)).filter((ink) => !passed.has(ink));
  if (fresh.length === 0) return [];
  await withAxe(page);
  const [broken, held] = await page.evaluate(
    async ([fresh, rules]) => {
      const { axe, inkOf = new Map<Element, string>() } = window as Watched & {
        readonly axe?: {
          run: (
            on: readonly Element[],
            options: object,
          ) => Promise<Record<"violations" | "passes", { id: string; nodes: { html: string; element: Element }[] }[]>>;
        };
      };
      const asked = [...inkOf].flatMap(([e, ink]) => (fresh.includes(ink) ? [e] : []));
      const r = await axe?.run(asked, {
        runOnly: rules,
        resultTypes: ["violations", "passes"],
        selectors: false,
        elementRef: true,
        iframes: false,
      });
      const held = (r?.passes ?? [])
        .filter((p) => p.id === "color-contrast")
        .flatMap((p) => p.nodes.map((n) => inkOf.get(n.element) ?? ""));
      const broken = (r?.violations ?? [{ id: "axe did not run", nodes: [] }]).map((v) => `${v.id}: ${v.nodes[0]?.html.slice(0, 160)}`);
      return [broken, held] as const;
    },
    [fresh, inkRules] as const,
  );
  for (const ink of held) passed.add(ink);
  return broken;
}

/**
 * Every state of the page, wide, on a tablet and on a phone, by day and in the dark. It fails where a state can't be reached, scrolls sideways, in large
 * digits as well, breaks a rule of axe-core or meets an error. Pictures go to dist/gallery: of what is broken, or of all by `npm run gallery`, to be looked
 * through after a change.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { playedDemo } from "./chassis.testdata";
import { executablePath, type InBrowser, inBrowser, jobHash, noSideways, violations } from "./in-browser.testdata";

const to = join(import.meta.dirname, "..", "..", "..", "dist", "gallery");
const sizes = { wide: { width: 1440, height: 900 }, tablet: { width: 820, height: 1180 }, phone: { width: 360, height: 800 } } as const;
const set = (...rest: string[]): string => jobHash("Club set", ...rest);
/** What a person does first where an address alone doesn't show it. */
type Act = (page: Page) => Promise<void>;
const pressed =
  (words: string): Act =>
  (page) =>
    page
      .getByRole("button", { name: words })
      .or(page.getByRole("link", { name: words }))
      .first()
      .click();
const unfolded: Act = (page) =>
  page.evaluate(() => {
    for (const d of document.querySelectorAll<HTMLDetailsElement>("main details")) d.open = true;
  });
const states: readonly (readonly [name: string, hash: string, act?: Act])[] = [
  ["jobs", "#/"],
  ["describe", "#/describe"],
  ["set", set()],
  ["set-place", set(), pressed("First IF tube")],
  ["find", set("find")],
  ["faults", set("faults")],
  ["fault-cause", set("faults"), pressed("Found the cause")],
  ["readings", set("readings")],
  ["dial", set("dial")],
  ["cards", set("records", "voltage-chart")],
  ["safety-card", set("records", "safety-in")],
  ["keypad", set("big", "voltage-chart")],
  ["join", set("join")],
  ["worth", set("worth")],
  ["work", set("work")],
  ["work-cable", set("work", "cable-fitted", "fittings.qm"), pressed("See what it disturbs")],
  ["mend", set("mend", "stages.if1")],
  ["sitting", set("sitting")],
  ["found-and-left", set("found-and-left")],
  ["parts", set("parts")],
  ["proof", set("proof")],
  ["set-described", set("set")],
  ["before-opening", set("before-opening")],
  ["sheet-safety", set("sheet", "safety")],
  ["sheet-suspects", set("sheet", "suspects", "stages.if1")],
  ["sheet-q-multiplier", set("sheet", "q-multiplier")],
  ["sheet-unfolded", set("sheet", "q-multiplier"), unfolded],
  ["sheet-volts", set("sheet", "volts")],
  ["sheet-cable", set("sheet", "cable-load")],
  ["sheet-supply", set("sheet", "b-plus")],
  ["sheet-dial", set("sheet", "band-edge")],
  ["sheet-connector", set("sheet", "dc-block")],
  ["listen", set("listen", "response")],
  ["sweep", set("sweep")],
];
const allPictures = process.env.FETTLE_GALLERY === "1";
let at: InBrowser;

const drawn = (page: Page): Promise<void> =>
  page.evaluate(() => new Promise<void>((done) => requestAnimationFrame(() => requestAnimationFrame(() => done()))));
/** Width of the arrow beside a choice, px: as the browser draws it at this size of letters. */
const arrowPx = 18;
/** Choices whose words are cut: what is chosen is wider than the room that it has beside its arrow. */
const cut = (page: Page): Promise<readonly string[]> =>
  page.evaluate(
    (arrowPx) =>
      [...document.querySelectorAll("select")]
        .filter((s) => s.checkVisibility())
        .flatMap((s) => {
          const worn = getComputedStyle(s);
          const pen = document.createElement("canvas").getContext("2d");
          if (!pen) return ["no canvas"];
          pen.font = `${worn.fontWeight} ${worn.fontSize} ${worn.fontFamily}`;
          const said = s.selectedOptions[0]?.text ?? "";
          const room = s.clientWidth - Number.parseFloat(worn.paddingLeft) - Number.parseFloat(worn.paddingRight) - arrowPx;
          return pen.measureText(said).width > room
            ? [`${said} (${Math.round(pen.measureText(said).width)} in ${Math.round(room)} px)`]
            : [];
        }),
    arrowPx,
  );
const worn = (page: Page, name: "theme" | "large", value: string): Promise<void> =>
  page.evaluate(([n, v]) => void document.documentElement.setAttribute(`data-${n}`, v), [name, value] as const);
const settled = async (page: Page): Promise<void> => {
  await drawn(page);
  await page
    .getByText(
      /^(?:Opening|Weighing it|Working it out|Asking what explains them|Asking every question of this job|Asking the model|Reading the record)…/,
    )
    .waitFor({ state: "detached" });
  await page.locator("main[aria-busy=true]").waitFor({ state: "detached" });
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
};
/** All that is on a page, element by element, and whether it is seen: where this is the same, so is whatever axe-core finds but of colour and size. */
const onPage = (page: Page): Promise<string> =>
  page.evaluate(() =>
    [...document.body.querySelectorAll("*")]
      .map(
        (e) =>
          `${e.localName} ${[...e.attributes].map((a) => `${a.name}=${a.value}`).join(" ")} ${e.checkVisibility()} ${[...e.childNodes].map((n) => (n.nodeType === Node.TEXT_NODE ? n.nodeValue : "")).join("|")}`,
      )
      .join("\n"),
  );
/** Looks at a state in one light at one width; its picture is kept where all are asked for, or where it breaks something. */
async function looked(page: Page, name: string, theme: "day" | "dark", rules: "all" | "drawn"): Promise<void> {
  await worn(page, "theme", theme);
  const broken = await violations(page, rules);
  if (allPictures || broken.length > 0) {
    await drawn(page);
    await page.screenshot({ path: join(to, `${name}-${theme}.png`) });
  }
  expect(broken, `${name}, ${theme}`).toEqual([]);
}

describe.runIf(executablePath)("the gallery", () => {
  let page: Page;
  beforeAll(async () => {
    mkdirSync(to, { recursive: true });
    at = await inBrowser(playedDemo);
    page = await at.open("#/", sizes.wide);
  });
  afterAll(() => at?.close());
  /** height of the head of a job's pages, by width: it is one, or what stands under it jumps */
  const heads: Record<string, number | undefined> = {};
  /** what is on the page of each state, wide: a state that looks like another shows nothing of its own */
  const pages = new Map<string, string>();
  it.each(states.map(([name, hash, act]) => ({ name, hash, act })))("$name", async ({ name, hash, act }) => {
    await page.setViewportSize(sizes.wide);
    // another query is another document, with nothing of the one before, in a process that has read its scripts already
    await page.goto(`${at.url}?${name}${hash}`);
    await page.locator("main h1").first().waitFor();
    await settled(page);
    // a question is looked at once it is answered
    if (hash.includes("/sheet/")) await page.locator("main.sheet[aria-busy=false] .headline").waitFor();
    await act?.(page);
    const known = new Set<string>();
    for (const [width, size] of Object.entries(sizes)) {
      await page.setViewportSize(size);
      await settled(page);
      expect(await noSideways(page), `${name}, ${width}`).toBe(true);
      expect(await cut(page), `${name}, ${width}`).toEqual([]);
      const high = await page.evaluate(() => document.querySelector("header.top:has(.jobnav)")?.clientHeight);
      heads[width] ??= high;
      if (high !== undefined) expect(high, `${name}, ${width}: the head of a job's pages`).toBe(heads[width]);
      const seen = await onPage(page);
      if (width === "wide") {
        expect(pages.get(seen), `${name} looks like another state`).toBe(undefined);
        pages.set(seen, name);
      }
      await looked(page, `${name}-${width}`, "day", known.has(seen) ? "drawn" : "all");
      await looked(page, `${name}-${width}`, "dark", "drawn");
      known.add(seen);
      await worn(page, "large", "yes");
      await drawn(page);
      expect(await noSideways(page), `${name}, ${width}, large digits`).toBe(true);
      await worn(page, "large", "no");
    }
  });
  it("met no error of its own", () => expect(at.complaints).toEqual([]));
});

/** What is measured on one page of the browser, each by the page's own clock; whatever doesn't come in time is told and not waited for. */
import type { CDPSession, Page } from "playwright-core";

const patienceMs = 60_000;
export interface Opened {
  readonly page: Page;
  readonly cdp: CDPSession;
}

/** Milliseconds from a tap to the first answer of a question and to the full one. */
export const askedByTap = (page: Page, link: string): Promise<{ readonly first: number; readonly full: number }> =>
  page.evaluate(
    ({ link, patienceMs }) =>
      new Promise<{ first: number; full: number }>((done, fail) => {
        const from = performance.now();
        let first = 0;
        const look = (): void => {
          const now = performance.now() - from;
          const said = document.querySelector("main.sheet .headline")?.textContent ?? "";
          if (first === 0 && said !== "" && !said.startsWith("Working")) first = now;
          if (first > 0 && document.querySelector("main.sheet[aria-busy=false]")) done({ first, full: now });
          else if (now > patienceMs) fail(new Error(`no answer within ${patienceMs} ms`));
          else requestAnimationFrame(look);
        };
        const a = document.querySelector<HTMLAnchorElement>(`a[href="${link}"]`);
        if (a) a.click();
        else fail(new Error(`no link ${link} on ${location.hash}`));
        look();
      }),
    { link, patienceMs },
  );

/** Milliseconds from going to a place of the page to something standing on it, drawn. */
export const goneTo = (page: Page, hash: string, seen: string): Promise<number> =>
  page.evaluate(
    ({ hash, seen, patienceMs }) =>
      new Promise<number>((done, fail) => {
        const from = performance.now();
        const look = (): void => {
          if (document.querySelector(seen)) requestAnimationFrame(() => done(performance.now() - from));
          else if (performance.now() - from > patienceMs) fail(new Error(`nothing at ${hash} within ${patienceMs} ms`));
          else requestAnimationFrame(look);
        };
        location.hash = hash;
        look();
      }),
    { hash, seen, patienceMs },
  );

export interface Moves {
  /** from each move to its picture drawn anew, ms */
  readonly ms: readonly number[];
  /** moves without a new picture */
  readonly missed: number;
  /** the page's own processor time a move, ms: all of it, scripts, layout with styles */
  readonly spent: readonly [number, number, number];
}
const movesCount = 200;
/** Moves the first slider of a question as a hand does, and waits each time for the picture that follows. */
export async function dragged({ page, cdp }: Opened): Promise<Moves> {
  const metrics = async (): Promise<Map<string, number>> =>
    new Map((await cdp.send("Performance.getMetrics")).metrics.map((m) => [m.name, m.value]));
  await cdp.send("Performance.enable", { timeDomain: "threadTicks" });
  const before = await metrics();
  const slider = page.locator(".inputs .hold").first();
  await slider.hover();
  await page.mouse.down();
  const ms = await slider.evaluate(async (el, count) => {
    const out: number[] = [];
    const plot = document.querySelector(".pictures figure.plot");
    if (!plot) throw new Error("no picture in sight");
    const { left, width, top, height } = el.getBoundingClientRect();
    for (let i = 0; i < count; i++) {
      await new Promise((r) => setTimeout(r, 40));
      const drawn = new Promise<number>((done) => {
        const give = (at: number): void => {
          seen.disconnect();
          clearTimeout(late);
          done(at);
        };
        const late = setTimeout(() => give(Number.POSITIVE_INFINITY), 3000);
        const seen = new MutationObserver(() => requestAnimationFrame(() => give(performance.now())));
        // a line that is led another way is a picture drawn anew, too
        seen.observe(plot, { childList: true, subtree: true, attributes: true, attributeFilter: ["d"] });
      });
      const t = performance.now();
      // to and fro in the middle half of its way, each time by a fortieth of it
      const along = 0.26 + Math.abs(((i * 0.025) % 1) - 0.5);
      const at = { clientX: left + width * along, clientY: top + height / 2 };
      el.dispatchEvent(new PointerEvent("pointermove", { bubbles: true, isPrimary: true, pointerId: 1, ...at }));
      out.push((await drawn) - t);
    }
    return out.slice(5).map((v) => (Number.isFinite(v) ? v : -1));
  }, movesCount);
  await page.mouse.up();
  const after = await metrics();
  const spent = (...names: string[]): number =>
    (1e3 * names.reduce((sum, n) => sum + (after.get(n) ?? 0) - (before.get(n) ?? 0), 0)) / movesCount;
  const seen = ms.filter((v) => v >= 0);
  return {
    ms: seen,
    missed: ms.length - seen.length,
    spent: [spent("TaskDuration"), spent("ScriptDuration"), spent("LayoutDuration", "RecalcStyleDuration")],
  };
}

/** Taps and fields filled until something is done, counted as they are made. */
export class Hand {
  taps = 0;
  constructor(private readonly page: Page) {}
  async tap(selector: string): Promise<void> {
    this.taps++;
    await this.page.locator(selector).first().click({ timeout: patienceMs });
  }
  /** a key counts as a tap: on a phone it is one */
  async press(key: string): Promise<void> {
    this.taps++;
    await this.page.keyboard.press(key);
  }
  async seen(selector: string): Promise<void> {
    await this.page.locator(selector).first().waitFor({ timeout: patienceMs });
  }
}

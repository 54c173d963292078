/** A sweep by serial ports in a real browser: its ports lead to the invented bench. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { InventedBench, inventedReceiver } from "../../../invented/bench";
import { patterns } from "../../../set/patterns/kinds";
import { openSqlite } from "../../../store/sqlite";
import { playedDemo } from "../chassis.testdata";
import { executablePath, type InBrowser, inBrowser, jobHash, noSideways, violations } from "../in-browser.testdata";

let at: InBrowser;
const place = jobHash("Club set", "sweep");
/** The page with two serial ports, the generator's first; a line into the generator may pull its cable. */
async function withPorts(bench: InventedBench, pulls: (line: string) => boolean = () => false, job = "Club set"): Promise<Page> {
  const page = await at.open("");
  await page.exposeFunction("benchHears", (kind: "generator" | "voltmeter", line: string) =>
    kind === "generator" && pulls(line) ? "pulled" : { reply: bench.hear(kind, line, performance.now() / 1000) },
  );
  await page.addInitScript(() => {
    type Hears = (kind: string, line: string) => Promise<"pulled" | { readonly reply?: string }>;
    const hears = (window as unknown as { readonly benchHears: Hears }).benchHears;
    const kinds = ["generator", "voltmeter"];
    const portOf = (kind: string) => {
      let out: ReadableStreamDefaultController<Uint8Array> | undefined;
      const port = {
        readable: null as ReadableStream<Uint8Array> | null,
        writable: null as WritableStream<Uint8Array> | null,
        open: async () => {
          port.readable = new ReadableStream({
            start: (c) => {
              out = c;
            },
          });
          port.writable = new WritableStream({
            write: async (bytes) => {
              for (const line of new TextDecoder().decode(bytes).split("\n").filter(Boolean)) {
                const answer = await hears(kind, line);
                if (answer === "pulled") out?.error(new Error("pulled"));
                else if (answer.reply !== undefined) out?.enqueue(new TextEncoder().encode(`${answer.reply}\r\n`));
              }
            },
          });
        },
        close: async () => undefined,
      };
      return port;
    };
    Object.defineProperty(navigator, "serial", { value: { requestPort: async () => portOf(kinds.shift() ?? "voltmeter") } });
  });
  await page.goto(`${at.url}${jobHash(job, "sweep")}`);
  await page.reload();
  return page;
}
async function begun(page: Page, more: (page: Page) => Promise<void> = async () => undefined): Promise<void> {
  await more(page);
  await page.getByRole("button", { name: "Choose the generator's port" }).click();
  await page.getByText("Choose the voltmeter's port first.").waitFor();
  await page.getByRole("button", { name: "Choose the voltmeter's port" }).click();
  await page.getByLabel("Frequencies", { exact: true }).fill("11");
  await page.getByText("Settling, readings, modulation").click();
  await page.getByLabel("Settle after each step").fill("0.03 s");
  await page.getByRole("button", { name: "Output on, and begin" }).click();
}

/** Keeps the sweep, and holds it against the curve that the bench was made with: within three of its uncertainties, met with the top's. */
async function keptAsMeasured(page: Page, bench: InventedBench): Promise<void> {
  await page.getByRole("button", { name: "Keep this reading" }).click();
  await page.getByText(/^Recorded r/).waitFor();
  const store = await openSqlite(at.store);
  const kept = (await store.load("Club set"))?.document.entries.findLast((e) => e.kind === "reading");
  await store.close();
  const { frequencyHz = [], levelDb = [], levelUDb = [] } = kept?.kind === "reading" ? kept.reading.columns : {};
  expect(frequencyHz.length).toBeGreaterThan(6);
  const top = levelDb.indexOf(Math.max(...levelDb));
  for (const [i, hz] of frequencyHz.entries()) {
    const off = levelDb[i] - levelDb[top] - (bench.gainDb(hz) - bench.gainDb(frequencyHz[top]));
    expect(Math.abs(off), `${hz} Hz`).toBeLessThan(3 * Math.hypot(levelUDb[i], levelUDb[top]));
  }
  await page.close();
}

describe.runIf(executablePath)("a sweep by serial ports", () => {
  beforeAll(async () => {
    at = await inBrowser(async (store) => {
      await playedDemo(store);
      await store.create({ id: "bare", name: "Bare set", created: "2026-02-01T10:00:00.000Z", set: patterns[1], entries: [] });
    });
  });
  afterAll(() => at?.close());

  it("is stepped, drawn, paused with the output off, and kept without a figure typed", async () => {
    const bench = new InventedBench();
    const page = await withPorts(bench);
    await page.getByText("B+ kills, and it is on every plate").waitFor();
    expect(await page.getByRole("button", { name: "Output on, and begin" }).isDisabled()).toBe(true);
    expect(await violations(page)).toEqual([]);
    await begun(page);
    await page.getByRole("button", { name: "Pause" }).click();
    await page.getByText("Paused, the output off.").waitFor();
    await expect.poll(() => bench.isOn).toBe(false);
    await page.getByRole("button", { name: "Go on" }).click();
    await page.getByText("The output is off: the generator says so.").waitFor();
    expect(bench.isOn).toBe(false);
    expect(await page.locator("figure.plot svg").count()).toBe(1);
    expect(await noSideways(page)).toBe(true);
    expect(await violations(page)).toEqual([]);
    await keptAsMeasured(page, bench);
  });
  it("holds the output by raising the generator where it is asked to: the same curve, never above its limit", async () => {
    const bench = new InventedBench({ ...inventedReceiver, avc: "on", scatter: 0.0005 });
    const levels: number[] = [];
    const page = await withPorts(bench, (line) => {
      if (line.startsWith("POW")) levels.push(Number(/-?[\d.]+/.exec(line)?.[0]));
      return false;
    });
    await begun(page, async () => {
      await page.getByLabel("Held").selectOption("output");
      await page.getByLabel("The set's AVC").selectOption("on");
      await page.getByLabel("Never above").fill("-20 dBm");
    });
    await page.getByText("The output is off: the generator says so.").waitFor();
    expect(new Set(levels).size).toBeGreaterThan(4);
    expect(Math.max(...levels)).toBeLessThanOrEqual(-20);
    await keptAsMeasured(page, bench);
  });
  it("whose cable is pulled says in large type that the output may be on, until the generator has said it is off", async () => {
    const bench = new InventedBench();
    let pulledCount = 0;
    const page = await withPorts(bench, (line) => bench.isOn && line.startsWith("FREQ") && pulledCount++ === 2);
    const alarms: string[] = [];
    await page.exposeFunction("alarmed", (says: string) => void alarms.push(says));
    await page.evaluate(() => {
      const alarmed = (window as unknown as { readonly alarmed: (says: string) => void }).alarmed;
      new MutationObserver(() => {
        const says = document.querySelector(".maybeon")?.textContent;
        if (says) alarmed(says);
      }).observe(document.body, { childList: true, subtree: true });
    });
    await begun(page);
    await page.getByText(/generator: the link was lost \(the cable was pulled/).waitFor();
    await page.getByText("The output is off: the generator says so.").waitFor();
    expect(alarms[0]).toMatch(/may still be on\. Trying again/);
    expect([bench.isOn, await page.locator(".maybeon").count()]).toEqual([false, 0]);
    await page.close();
  });
  it("is refused by the field that can't be, and says where a browser has no ports", async () => {
    const page = await withPorts(new InventedBench());
    await page.getByLabel("The set's AVC").selectOption("on");
    await begun(page);
    await page.getByText(/AVC off or clamped, or --hold output/).waitFor();
    await page.close();
    const bare = await at.open("");
    await bare.addInitScript(() => Object.defineProperty(navigator, "serial", { value: undefined }));
    await bare.goto(`${at.url}${place}`);
    await bare.reload();
    await bare.getByText("This browser has no serial ports for a page to use").waitFor();
    await bare.close();
  });
  it("is not begun at a chassis that nobody has proved isolated, and says why", async () => {
    const page = await withPorts(new InventedBench(), undefined, "Bare set");
    await page.getByRole("button", { name: "Choose the generator's port" }).click();
    await page.getByText(/This wants a chassis proved isolated: the instruments' cases are earth/).waitFor();
    expect(await page.getByRole("button", { name: "Output on, and begin" }).isDisabled()).toBe(true);
    await page.close();
  });
  it("met no error of its own", () => expect(at.complaints).toEqual([]));
});

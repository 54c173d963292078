/** One thread on the page in a real browser: from a set that nobody knows, told in a few words, to the paper in its owner's hand. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Entry } from "../../job/document";
import { comingIn, handover, safetyOut } from "../../job/proved.testdata";
import { steps } from "../../job/steps";
import { openSqlite } from "../../store/sqlite";
import { executablePath, type InBrowser, inBrowser, jobHash } from "./in-browser.testdata";

const name = "Attic set";
let at: InBrowser;
let page: Page;
let n = 0;
const head = () => ({ id: `walk${++n}`, at: new Date().toISOString(), who: "t" });
/** What is written on cards and proved without a fault in its way: as another page of the same bench would record it. */
async function recorded(entries: readonly Entry[]): Promise<void> {
  const store = await openSqlite(at.store);
  await store.append(name, entries);
  await store.close();
}
const done = (...ids: readonly string[]): Entry[] => ids.map((step) => ({ ...head(), kind: "done", step, note: "" }));
const go = (...rest: string[]) => page.goto(`${at.url}${jobHash(name, ...rest)}`);
const measured = (row: number) => page.getByLabel(`Measured V, row ${row}`, { exact: true });
/** Readings of the chart's rows, kept. */
async function read(volts: Readonly<Record<number, string>>): Promise<void> {
  await go("records", "voltage-chart");
  for (const [row, text] of Object.entries(volts)) await measured(Number(row)).fill(text);
  await page.getByRole("button", { name: "Keep this card" }).click();
  await page.getByText(/^Kept\./).waitFor();
}
const fault = () => page.locator(".fault", { hasText: "First IF tube (V3)" });
/** One act in the fault's life, with its words. */
async function act(button: RegExp, field?: string, words = ""): Promise<void> {
  await fault().getByRole("button", { name: button }).click();
  if (field === undefined) return;
  await fault().getByLabel(field).fill(words);
  await fault()
    .getByRole("button", { name: /^Record it/ })
    .click();
}
const isNow = (state: string) =>
  fault()
    .getByRole("heading", { name: new RegExp(`: ${state}$`) })
    .waitFor();

describe.runIf(executablePath)("one thread", () => {
  beforeAll(async () => {
    at = await inBrowser(async () => undefined);
    page = await at.open("#/describe");
  });
  afterAll(() => at?.close());

  it("begins with the tubes and a few words; an accessory that they name is on the set, its band with it", async () => {
    await page.getByLabel("Name of this job").fill(name);
    const words = ["6SG7 6SA7 6SK7 6SK7 6SQ7 6V6 5Y3", "IF 455 kHz, 117 V", "with a Q multiplier", "V3 plate 225 V 2.2k"];
    await page.getByLabel("In your words").fill([...words, "V3 screen 100 V 33k", "V3 cathode 1.05 V 68"].join("\n"));
    await page.getByRole("button", { name: "See what is understood" }).click();
    await page.getByText("Q multiplier fitted, as one of its kind usually is").waitFor();
    await page.getByRole("button", { name: "Start the job from this" }).click();
    await page.getByRole("alert").filter({ hasText: "counts as live" }).waitFor();
    await page.locator(".tag", { hasText: "Q multiplier" }).waitFor();
    await recorded([...comingIn(head), ...done("01", "02", "03", "04")]);
    await page.locator(".danger-line").waitFor({ state: "detached" });
    await page.getByRole("heading", { name: /Nothing is known to be wrong/ }).waitFor();
    // some of its steps are proved, not all
    await page.locator(".tag", { hasText: "Supply" }).getByText("in work").waitFor();
  });
  it("leads a reading off its chart to a fault that was mended, read again, proved and closed, and opens it by itself once a reading contradicts that", async () => {
    await read({ 1: "238", 2: "64", 3: "0.56" });
    await go("faults");
    await act(/^Found the cause/, "What it was", "screen resistor drifted high");
    await isNow("cause found");
    await fault().getByRole("link", { name: "Mend it" }).click();
    await page.getByLabel(/^Part/).selectOption("screen-resistor");
    await page.locator("fieldset", { hasText: "What went in" }).getByLabel("Value as marked").fill("33k ±5%");
    await page.getByRole("button", { name: "See what follows" }).click();
    await page.getByRole("button", { name: "Record it" }).click();
    // where it was mended is lit among what that disturbs; no power before the capacitors were decided on
    await page.locator(".tag.lit", { hasText: "First IF tube" }).waitFor();
    await page.getByRole("heading", { name: /mended, not proved yet\. First: Capacitors/ }).waitFor();
    await read({ 2: "102" });
    await go("faults");
    await fault().getByText("Read again: V3, cathode.").waitFor();
    await act(/^It is proved/, "What you read again, and how", "the screen");
    await fault().getByText("Not read since it was mended: V3, cathode.").waitFor();
    await read({ 3: "1.04" });
    await go("faults");
    await act(/^It is proved/, "What you read again, and how", "screen and cathode");
    await act(/^Close it/);
    await isNow("closed");
    await fault().getByText("When noticed: V3, screen is low: 64 V").waitFor();
    await read({ 2: "60" });
    await go("faults");
    await isNow("open again");
    await fault().getByText("Read since: V3, screen is low: 60 V").waitFor();
    await read({ 2: "101" });
    await go("faults");
    await isNow("closed");
  });
  it("proves both states of the accessory by what was read, and by no guess", async () => {
    await go("sheet", "accessory-proof", "fittings.qm");
    await page.locator("summary", { hasText: "more inputs" }).click();
    const both = { levelBefore: "12 uV", levelWithout: "12.2 uV", levelWith: "10 uV", widthBefore: "6.1 kHz", widthWithout: "6.05 kHz" };
    const fed = { connectorRead: "0.1 V", tapWithout: "250 V ±1 V", tapWith: "247 V ±1 V", heaterVolts: "6.2 V" };
    for (const [input, text] of Object.entries({ ...both, ...fed })) await page.locator(`#in-${input}`).fill(text);
    await page.getByText("A guess is no reading: say whether it was measured.").waitFor();
    expect(await page.getByRole("button", { name: "Keep in the job" }).isDisabled()).toBe(true);
    await page.getByLabel("These are").selectOption("measured");
    await page.getByRole("button", { name: "Keep in the job" }).click();
    await page.getByText("Kept in the job as measured").waitFor();
    // proved by what is kept, no longer by what is tried
    await page.reload();
    await page.locator(".headline", { hasText: "Both states are proved" }).waitFor();
  });
  it("says in six lines where it was left, a week later", async () => {
    await go("sitting");
    await page.locator("#getup").getByLabel("Clipped on, lifted or taken out").fill("meter lead on B+");
    await page.locator("#getup").getByLabel("What was being done").fill("both states of the Q multiplier");
    await page.getByRole("button", { name: "Get up" }).click();
    await page.getByText("How you left the set is on record.").waitFor();
    await page.locator("#waiting").getByLabel("What is waited for").fill("a capacitor");
    await page
      .locator("#waiting")
      .getByLabel(/^Until/)
      .fill("3 days");
    await page.getByRole("button", { name: "Wait for it" }).click();
    await page.getByRole("button", { name: "It has come: a capacitor" }).waitFor();
    await page.clock.install({ time: Date.now() + 7 * 24 * 3600e3 });
    await page.reload();
    await page.locator("#waiting li", { hasText: "was due" }).waitFor();
    await go();
    const said = await page.locator(".where dd").allTextContents();
    expect(said[0]).toMatch(/^Last at it 7 days ago: .*meter lead on B\+/);
    expect(said[1]).toContain("Was doing: both states of the Q multiplier.");
    expect(said[2]).toBe("No open fault on record.");
    expect(said[3]).toMatch(/^a capacitor was due .*: has it come\?/);
    expect(said[4]).toMatch(/^Capacitors: which go, which stay .* 4 of \d+ steps proved, 0 due again\.$/);
    expect(said[5]).toMatch(/^Unplug the set, discharge its capacitors and MEASURE them again/);
  });
  it("goes home: every step proved, its paper in the owner's hand", async () => {
    const rest = steps.map((s) => s.id).filter((id) => !["01", "02", "03", "04", "35", "36"].includes(id));
    const card = (form: string, fields: Readonly<Record<string, string>>): Entry => ({
      ...head(),
      kind: "form",
      form,
      fields: { ...fields },
    });
    await recorded([...done(...rest), card("safety-out", safetyOut), card("handover", handover), ...done("35", "36")]);
    await page.getByRole("heading", { name: "Everything is proved on this set. It can go home." }).waitFor();
    const download = page.waitForEvent("download");
    await page.locator(".more > summary").click();
    await page.getByRole("button", { name: "Report (PDF)" }).click();
    expect(readFileSync((await (await download).path())!).length).toBeGreaterThan(20_000);
    expect(at.complaints).toEqual([]);
  });
});

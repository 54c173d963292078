/** What is told, corrected and weighed on the page, by clicks: a set in a few words, a wrong tube, what others did, what is worth doing, a part with its photograph. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { subjectFirst } from "../../job/rollups/pointed";
import { subjectsIn, viewOf } from "../../job/view";
import { suspects } from "../../sheets/suspects/sheet";
import { openSqlite } from "../../store/sqlite";
import { playedDemo } from "./chassis.testdata";
import { executablePath, type InBrowser, inBrowser, jobHash, noSideways, violations } from "./in-browser.testdata";

let at: InBrowser;
const place = (...rest: string[]): string => jobHash("Club set", ...rest);
async function stored(name: string) {
  const store = await openSqlite(at.store);
  const found = await store.load(name);
  await store.close();
  if (!found) throw new Error(`no job ${name}`);
  return viewOf(found.document);
}
describe.runIf(executablePath)("what is told on the page", () => {
  beforeAll(async () => {
    at = await inBrowser(playedDemo);
  });
  afterAll(() => at?.close());

  it("makes a set from a few words: understood first, a bad line named, then made", async () => {
    const page = await at.open("#/describe");
    await page.getByLabel("Name of this job").fill("Attic set");
    const words = page.locator("#in-words textarea");
    await words.fill("6SG7 6SA7 6SK7 6SK7 6SQ7 6V6 5Y3\nIF 455 kHz\nxyzzy plover");
    await page.getByRole("button", { name: "See what is understood" }).click();
    await page.locator("#in-words .preview").getByText("xyzzy plover").waitFor();
    expect(await page.getByRole("button", { name: "Start the job from this" }).count()).toBe(0);
    await words.fill("6SG7 6SA7 6SK7 6SK7 6SQ7 6V6 5Y3\nIF 455 kHz");
    await page.getByRole("button", { name: "See what is understood" }).click();
    await page.locator("#in-words .preview").getByText("V2 6SA7").waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole("button", { name: "Start the job from this" }).click();
    await page.locator(".tag").first().waitFor();
    expect((await stored("Attic set")).set.tubes.map((t) => t.type)).toContain("6SA7");
    await page.close();
  });
  it("corrects a tube: what that disturbs is seen before it is recorded, a field that can't be read is named", async () => {
    const page = await at.open(place("set"));
    const panel = page.locator("#correct");
    const before = (await stored("Club set")).set.tubes.find((t) => t.socket === "V4")?.type;
    await panel.getByLabel("Which").selectOption("V4");
    await panel.getByLabel("Function").fill("makes tea");
    await panel.getByRole("button", { name: "See what it disturbs" }).click();
    await panel.getByText("makes tea").waitFor();
    await panel.getByLabel("Function").fill("");
    await panel.getByLabel("Type").fill("6BA6");
    await panel.getByRole("button", { name: "See what it disturbs" }).click();
    await panel.locator(".preview").waitFor();
    expect((await stored("Club set")).set.tubes.find((t) => t.socket === "V4")?.type).toBe(before);
    await panel.getByRole("button", { name: "Record it" }).click();
    await panel.getByText("What was there before stays").waitFor();
    expect((await stored("Club set")).set.tubes.find((t) => t.socket === "V4")?.type).toBe("6BA6");
    expect(await violations(page)).toEqual([]);
    await page.close();
  });
  it("says what others did, what that puts in doubt, and what settles it", async () => {
    const page = await at.open(place("past"), { width: 390, height: 844 });
    const box = page.locator("li.fault", { hasText: "Rectifier changed" });
    await box.getByLabel("In your words").fill("two diodes under the socket");
    await box.getByRole("button", { name: "Seen: rectifier changed" }).click();
    await page.getByRole("heading", { name: /What others did to it: 1 to settle/ }).waitFor();
    await box.getByText("It puts in doubt").waitFor();
    await box.getByText("Settle it:").waitFor();
    expect(await noSideways(page)).toBe(true);
    expect(await violations(page)).toEqual([]);
    await page.close();
  });
  it("weighs what is worth doing by the time there is, and leads to where it is done", async () => {
    const page = await at.open(place("worth"));
    const choices = page.locator("#choices ol.next > li");
    await choices.first().waitFor();
    const all = await choices.count();
    expect(all).toBeGreaterThan(1);
    await page.getByLabel("How long have you got?").fill("1 min");
    await page.waitForFunction((n) => document.querySelectorAll("#choices ol.next > li").length < n, all);
    await page.getByLabel("How long have you got?").fill("a fortnight or so");
    await page.getByText("a fortnight or so").waitFor();
    await page.getByLabel("How long have you got?").fill("");
    await page.getByRole("link", { name: "Go to it" }).first().click();
    await page.waitForFunction(() => !location.hash.endsWith("/worth"));
    await page.locator("main h1").first().waitFor();
    await page.close();
  });
  it("keeps a photograph with the part that it shows, and shows it among the photographs", async () => {
    const page = await at.open(place("mend", "stages.if1"));
    const picture = join(at.folder, "screen.png");
    // one grey pixel
    writeFileSync(
      picture,
      Buffer.from("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYGD4DwABDAEBrwGQ8gAAAABJRU5ErkJggg==", "base64"),
    );
    const part = page.locator("#mend select").nth(1);
    await part.selectOption({ index: 1 });
    await page.getByLabel("Its name on the diagram").fill("C14");
    await page.getByLabel(/A photograph of it/).setInputFiles(picture);
    await page.getByText("screen.png is kept with the part").waitFor();
    await page.getByRole("button", { name: "See what follows" }).click();
    await page.getByRole("button", { name: "Record it" }).click();
    await page.locator(".litnote").waitFor();
    const files = (await stored("Club set")).document.entries.flatMap((e) => (e.kind === "attachment" ? [e] : []));
    expect(files).toHaveLength(1);
    await page.goto(`${at.url}${place("readings")}`);
    await page.locator(".photos img").first().waitFor();
    expect(
      await page
        .locator(".photos img")
        .first()
        .evaluate((i: HTMLImageElement) => i.decode().then(() => i.naturalWidth)),
    ).toBeGreaterThan(0);
    await page.close();
    expect(readFileSync(picture).length).toBeGreaterThan(0);
  });
  it("starts who answers while the page of a question is still on its way, and no one for nothing", async () => {
    const page = await at.open(place("find"));
    let arrives = (): void => undefined;
    const onItsWay = new Promise<void>((done) => {
      arrives = done;
    });
    await page.route(/part-answers-.*\.js$/, async (r) => {
      await onItsWay;
      await r.continue();
    });
    const started = page.waitForEvent("worker");
    await page.locator("a[href$='/sheet/b-plus']").first().click();
    await started;
    expect(await page.locator("main.sheet").count()).toBe(0);
    arrives();
    await page.locator("main.sheet[aria-busy=false] .headline").waitFor();
    // one for quick answers, which was made ready, one for full ones
    expect(page.workers()).toHaveLength(2);
    await page.close();
  });
  it("asks a question about the place that the thread points at, and about another where that is said", async () => {
    const store = await openSqlite(at.store);
    const fault = { at: "2026-11-01T00:00:00.000Z", who: "t", kind: "fault", does: "notice", words: "weak" } as const;
    await store.append("Club set", [{ ...fault, id: "at-if2", fault: "at-if2", place: "stages.if2", rests: [] }]);
    await store.close();
    const pointed = subjectFirst(await stored("Club set"), suspects);
    expect(pointed).not.toBe(subjectsIn(await stored("Club set"), suspects)[0]);
    const page = await at.open(place("sheet", "suspects"));
    expect(await page.getByLabel("About").inputValue()).toBe(pointed);
    await page.goto(`${at.url}${place("sheet", "suspects", "stages.audio")}`);
    await page.waitForFunction(() => document.querySelector<HTMLSelectElement>(".about select")?.value === "stages.audio");
    await page.close();
  });
  it.each([
    ["wide", 720, 450],
    ["a phone", 195, 422],
  ])("nothing scrolls sideways at twice the size, %s", async (_, width, height) => {
    for (const rest of [[], ["find"], ["readings"], ["records", "voltage-chart"], ["sheet", "b-plus"]]) {
      const page = await at.open(place(...rest), { width, height });
      await page.locator("main h1").first().waitFor();
      await page.getByText(/^(?:Opening|Working it out|Asking what explains them)…/).waitFor({ state: "detached" });
      expect(await noSideways(page), rest.join(" ")).toBe(true);
      await page.close();
    }
  });
  it("met no error of its own", () => expect(at.complaints).toEqual([]));
});

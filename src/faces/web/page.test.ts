/** The page in a real browser: the set, its questions, work and faults. Skipped by name where Chromium is not here; the check installs it. */

import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demoSweepCsv } from "../../desk/demo";
import { executablePath, type InBrowser, inBrowser, jobHash } from "./in-browser.testdata";
import { benchOfJobs } from "./page.testdata";

let at: InBrowser;
const open = (hash: string, width = 1600): Promise<Page> => at.open(hash, { width, height: 900 });
describe.runIf(executablePath)("the set on the page", () => {
  beforeAll(async () => {
    at = await inBrowser(benchOfJobs);
  });
  afterAll(() => at?.close());

  it("reads a dropped sweep: drawn and read out first, then kept, then in every answer", async () => {
    const file = join(at.folder, "sweep.csv");
    writeFileSync(file, demoSweepCsv());
    const page = await open(jobHash("Harbour", "readings"));
    await page.locator("#read input[type=file]").setInputFiles(file);
    await page.getByText("It tells").waitFor();
    expect(await page.locator(".preview .raw").count()).toBe(1);
    await page.getByRole("button", { name: "Keep this reading" }).click();
    await page.getByText(/Recorded r/).waitFor();
    const bad = join(at.folder, "bad.csv");
    writeFileSync(bad, "kHz,dB\n450,1\n451,x\n452,1\n453,1\n454,1\n");
    await page.locator("#read input[type=file]").setInputFiles(bad);
    await page.getByText("bad.csv line 3").waitFor();
    await page.goto(`${at.url}${jobHash("Harbour", "sheet", "if-response")}`);
    await page.getByText(/The strip passes 6\.0/).waitFor();
    await page.close();
  });

  it("tries a value beside the job's own, answers a bad one at the field, survives a reload, keeps it", async () => {
    const page = await open(jobHash("Harbour", "sheet", "cable-load"));
    const field = page.locator("#in-cableLength");
    await field.fill("3 kHz");
    await page.locator("#in-cableLength-said.wrong", { hasText: "Expected a length such as" }).waitFor();
    await field.fill("60 cm");
    await page.getByText("The job's own curves are drawn dashed.").waitFor();
    await page.locator(".plot .label", { hasText: "cable on (job)" }).waitFor();
    await page.reload();
    expect(await page.locator("#in-cableLength").inputValue()).toBe("60 cm");
    await page
      .locator(".trying", { hasText: "replaces what is recorded with a guess: cable from the plate to the accessory (measured)" })
      .waitFor();
    await page.getByRole("button", { name: "Keep in the job" }).click();
    await page.getByText("Kept in the job as assumed").waitFor();
    await page.waitForFunction(() => (document.querySelector("#in-cableLength") as HTMLInputElement).value === "600 mm");
    expect(await page.locator(".trying").count()).toBe(0);
    await page.close();
  });

  it("redraws while a value is still being dragged, and the answer that rests is the last one's", async () => {
    const page = await open(jobHash("Harbour", "sheet", "cable-load"));
    await page.locator(".figures tbody tr").first().waitFor();
    await page.waitForTimeout(2500);
    const slider = page.getByRole("slider", { name: "Drag cable from the plate to the accessory" });
    await slider.evaluate((e) => e.scrollIntoView({ block: "center" }));
    const box = (await slider.boundingBox())!;
    await page.evaluate(() => {
      const w = window as unknown as { drawn: number };
      w.drawn = 0;
      // a line that is led another way is drawn anew, too
      const seen = { childList: true, subtree: true, attributes: true, attributeFilter: ["d"] };
      new MutationObserver(() => w.drawn++).observe(document.querySelector(".plot")!, seen);
    });
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    // still held down, it is redrawn again and again, however long one drawing takes
    let drawn = 0;
    for (let i = 0; i < 400 && (i < 20 || drawn <= 3); i++) {
      await page.mouse.move(box.x + box.width / 2 + (i % 20) * 2, box.y + box.height / 2);
      await page.waitForTimeout(60);
      drawn = await page.evaluate(() => (window as unknown as { drawn: number }).drawn);
    }
    await page.mouse.up();
    expect(drawn).toBeGreaterThan(3);
    const said = /plate to the accessory: ([\d.]+)\s(m?m)/.exec((await page.locator(".trying").textContent()) ?? "");
    const tried = said?.slice(1).join(" ");
    await page.locator(".working").waitFor({ state: "detached" });
    expect(await page.locator("#in-cableLength").inputValue()).toBe(tried);
    await page.getByRole("button", { name: "Back to the record: cable from the plate to the accessory" }).click();
    await page.locator(".trying").waitFor({ state: "detached" });
    await page.close();
  });

  it.each([
    [1440, 900],
    [390, 844],
  ])(
    "keeps number, answer and picture in sight at %i px while the last of the open inputs is turned, its type 16 px as drawn",
    async (width, height) => {
      const page = await open(jobHash("Harbour", "sheet", "cable-load"), width);
      await page.setViewportSize({ width, height });
      await page.locator(".figures tbody tr").first().waitFor();
      const last = page.locator(".turn .inputs > .knob input[type=range]").last();
      await last.scrollIntoViewIfNeeded();
      const inSight = await page.evaluate(() =>
        [".number .big", ".headline", ".glance .plot svg"].map((s) => {
          const b = document.querySelector(s)!.getBoundingClientRect();
          return b.top >= -1 && b.bottom <= innerHeight;
        }),
      );
      expect(inSight).toEqual([true, true, true]);
      const type = await page.evaluate(() => {
        const svg = document.querySelector<SVGSVGElement>(".glance .plot svg")!;
        const label = svg.querySelector(".label")!;
        return Number(label.getAttribute("font-size")) * (svg.getBoundingClientRect().width / svg.viewBox.baseVal.width);
      });
      expect(type).toBeGreaterThanOrEqual(15.9);
      const sizes = await page.evaluate(() =>
        [...document.querySelectorAll("main *")].map((e) =>
          e.children.length === 0 && e.textContent ? Number.parseFloat(getComputedStyle(e).fontSize) : 0,
        ),
      );
      expect(
        Number.parseFloat(
          await page
            .locator(".number .big")
            .first()
            .evaluate((e) => getComputedStyle(e).fontSize),
        ),
      ).toBe(Math.max(...sizes));
      await page.close();
    },
  );

  it("opens a place right under its tag, by hand and by keyboard, with what may be asked of it and whether it can be answered", async () => {
    const page = await open(jobHash("Harbour"), 1440);
    const tag = page.locator(".tag.path", { hasText: "Mixer" });
    await tag.focus();
    await page.keyboard.press("Enter");
    const place = page.locator(".opened");
    await place.getByText("What does a cable on the mixer plate do").waitFor();
    await place.locator(".standing", { hasText: "can be answered" }).first().waitFor();
    const [a, b] = [(await tag.boundingBox())!, (await place.boundingBox())!];
    expect(b.y - (a.y + a.height)).toBeLessThan(40);
    // every other tag of its row stays in the row
    const tops = await page.locator(".tag").evaluateAll((all) => all.map((t) => Math.round(t.getBoundingClientRect().top)));
    expect(tops.slice(0, 4)).toEqual([tops[0], tops[0], tops[0], tops[0]]);
    await page.keyboard.press("Enter");
    await place.waitFor({ state: "detached" });
    await page.close();
  });

  it.each([
    [1440, 900],
    [1024, 768],
  ])("shows the whole set on one screen at %i", async (width, height) => {
    const page = await open(jobHash("Harbour"), width);
    await page.setViewportSize({ width, height });
    await page.locator(".tag").first().waitFor();
    const end = Math.max(...(await page.locator(".tag").evaluateAll((all) => all.map((t) => t.getBoundingClientRect().bottom))));
    const foot = (await page.locator(".pinned").boundingBox())!.y;
    expect(end).toBeLessThan(foot);
    await page.close();
  });

  it("finds a question in the bench's words and opens it in two taps", async () => {
    const page = await open(jobHash("Harbour"));
    await page.getByRole("link", { name: "Find a question" }).click();
    await page.locator("input[type=search]:focus").waitFor();
    await page.keyboard.type("can't hear marker");
    await page.getByRole("link", { name: /^Which markers will be heard/ }).click();
    await page.locator(".headline", { hasNotText: "Working it out" }).waitFor();
    await page.close();
  });

  it("shows what work disturbs before it is recorded, asks what it changed, lights it up on the set, and puts the safety test to the end; the last entry can be taken back", async () => {
    const page = await open(jobHash("Harbour", "work", "cable-fitted", "fittings.qm"));
    await page.getByRole("button", { name: "See what it disturbs" }).click();
    await page.locator("#work .preview", { hasText: "Re-peak the first can" }).waitFor();
    await page.locator(".tag.lit", { hasText: "kHz" }).first().waitFor();
    // what it changes is asked for in the same act
    await page.getByRole("button", { name: "Record it" }).click();
    await page.getByRole("alert").filter({ hasText: "length of the cable as fitted" }).waitFor();
    await page.getByLabel("length of the cable as fitted").fill("5 ft");
    await page.getByRole("button", { name: "Record it" }).click();
    await page.locator("#changed", { hasText: "Cable fitted at the mixer plate" }).waitFor();
    await page.locator(".tag.lit", { hasText: "First IF can" }).waitFor();
    await page.getByRole("button", { name: "Seen" }).click();
    await page.locator(".tag.lit").first().waitFor({ state: "detached" });
    const more = page.locator("#next").getByRole("button", { name: /more$/ });
    while ((await more.count()) > 0) await more.click();
    expect((await page.locator(".next h3").allTextContents()).slice(-2)[0]).toContain("Final safety test");
    expect(await page.locator(".next .cautions").first().textContent()).toContain("MEASURE before you touch");
    await page.getByRole("button", { name: "Take back the last entry" }).click();
    await page.locator("#changed", { hasText: "(taken back)" }).waitFor();
    await page.close();
  });

  it("proves a chassis by what was measured, said once more, and a safety step by its record alone", async () => {
    const page = await open(jobHash("nine-tube-ceramic", "set"));
    await page.locator(".danger-line", { hasText: "not proved isolated" }).waitFor();
    await page.getByLabel(/^isolated: it has its own power transformer/).check();
    await page.getByRole("button", { name: "Go on" }).click();
    await page.getByRole("button", { name: /^Once more: isolated/ }).click();
    await page.getByRole("alert").filter({ hasText: "ohms" }).waitFor();
    await page.getByLabel(/ohms from each blade of the plug/).fill("30 Mohm");
    await page.getByLabel("Meter", { exact: true }).fill("insulation tester");
    await page.getByLabel(/^What was traced/).fill("each blade to chassis, switch on");
    await page.getByRole("button", { name: "Go on" }).click();
    expect(await page.locator(".danger-line").count()).toBe(1);
    await page.getByRole("button", { name: /^Once more: isolated/ }).click();
    await page.locator(".danger-line").waitFor({ state: "detached" });
    await page.goto(`${at.url}${jobHash("nine-tube-ceramic")}`);
    const step = page.locator(".next > li", { has: page.locator("h3", { hasText: "Isolation, cord, fuse, line bypass" }) });
    await step.locator("summary").click();
    await step.getByText("Fuse rating and type").first().waitFor();
    expect(await step.getByRole("button", { name: /Record the proof|It is proved/ }).count()).toBe(0);
    await page.close();
  });

  it("leads a fault from noticed to proved: written down, its cause, mended as one act that lights up on the set, proved", async () => {
    const page = await open(jobHash("nine-tube-bandspread", "faults", "stages.if1"));
    await page.getByLabel("What you see, hear or smell").fill("hum rises with the gain control");
    await page.getByRole("button", { name: "Write it down" }).click();
    const fault = page.locator(".fault", { hasText: "hum rises" });
    await fault.getByRole("button", { name: /^Found the cause/ }).click();
    await fault.getByLabel("What it was").fill("cathode bypass open");
    await fault.getByRole("button", { name: /^Record it: Found the cause/ }).click();
    await fault.getByText("cathode bypass open").first().waitFor();
    await fault.getByRole("link", { name: "Mend it" }).click();
    await page.getByRole("button", { name: "See what follows" }).waitFor();
    expect(await page.getByRole("button", { name: "See what follows" }).isDisabled()).toBe(true);
    await page.getByText("Choose the part.").waitFor();
    await page.getByLabel(/^Part/).selectOption("cathode-resistor");
    await page.locator("fieldset", { hasText: "What went in" }).getByLabel("Value as marked").fill("68 ohm");
    await page.getByRole("button", { name: "See what follows" }).click();
    await page.locator(".preview", { hasText: "To be done after this" }).waitFor();
    await page.getByRole("button", { name: "Record it" }).click();
    await page.locator(".litnote").waitFor();
    await page.locator(".tag.lit").first().waitFor();
    await page.getByRole("link", { name: "Faults" }).click();
    await fault.getByRole("heading", { name: /mended/ }).waitFor();
    // what is next leads: what is read again stands on the chart
    expect(await fault.locator("a.button:not(.plain)").allTextContents()).toEqual(["Write what you read"]);
    await fault.getByRole("link", { name: "Write what you read" }).click();
    await page.getByLabel("Measured V, row 1", { exact: true }).waitFor();
    await page.close();
  });

  it("says where things stand in six lines, and how the set was left, to whoever sits down again", async () => {
    const page = await open(jobHash("nine-tube-bandspread", "sitting"));
    await page.locator("#getup").getByLabel("Clipped on, lifted or taken out").fill("one end of C14 lifted");
    await page.getByRole("button", { name: "Get up" }).click();
    await page.getByText("How you left the set is on record.").waitFor();
    await page.locator("#waiting").getByLabel("What is waited for").fill("a filter capacitor from the post");
    await page.getByRole("button", { name: "Wait for it" }).click();
    await page.getByRole("button", { name: "It has come: a filter capacitor from the post" }).waitFor();
    await page.goto(`${at.url}${jobHash("nine-tube-bandspread")}`);
    await page.locator(".where summary").click();
    expect(await page.locator(".where dt").allTextContents()).toEqual(["The set", "Last", "Wrong", "Waiting", "Next", "Care"]);
    await page.locator(".where", { hasText: "one end of C14 lifted" }).waitFor();
    await page.close();
  });

  it("keeps the warning of a chassis that is not stated, whatever is said of a transformer, and names a page that is none", async () => {
    const page = await open(jobHash("unstated", "no-such-page"));
    await page.getByRole("alert").filter({ hasText: "counts as live" }).waitFor();
    await page.locator(".issues", { hasText: "no-such-page" }).waitFor();
    await page.close();
  });

  it("asked nothing of any other machine, and met no error of its own", () => {
    expect(at.complaints).toEqual([]);
  });
});

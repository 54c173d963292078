/** The page in a real browser. Skipped by name where Chromium is not here; the check installs it. */

import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demoSweepCsv } from "../../desk/demo";
import { dialCases, inventDial } from "../../infer/dial/possible-dials";
import { inventSweep } from "../../invented/strip";
import { forms } from "../../job/forms";
import { safetyIn } from "../../job/proved.testdata";
import { mediumStrip } from "../../set/patterns/strips";
import { openSqlite } from "../../store/sqlite";
import { executablePath, type InBrowser, inBrowser, jobHash } from "./in-browser.testdata";
import { benchOfJobs } from "./page.testdata";

const realSweep = join(import.meta.dirname, "..", "..", "..", "..", "shared", "readings", "crystal-10MHz", "Top_C300_25C.s2p");
let at: InBrowser;
const open = (hash: string, width = 1600): Promise<Page> => at.open(hash, { width, height: 900 });
describe.runIf(executablePath)("the page", () => {
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
      new MutationObserver(() => w.drawn++).observe(document.querySelector(".plot")!, { childList: true, subtree: true });
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
    const tried = /plate to the accessory: ([\d.]+ m?m)/.exec((await page.locator(".trying").textContent()) ?? "")![1];
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
    await fault.getByRole("button", { name: /^Found the cause/ }).click();
    await fault.getByText("cathode bypass open").first().waitFor();
    await fault.getByRole("link", { name: "Mend it" }).click();
    await page.getByRole("button", { name: "See what follows" }).waitFor();
    expect(await page.getByRole("button", { name: "See what follows" }).isDisabled()).toBe(true);
    await page.getByText("Choose the part.").waitFor();
    await page.getByLabel(/^Part/).selectOption("cathode-resistor");
    await page.locator("fieldset", { hasText: "This came in" }).getByLabel("Value as marked").fill("68 ohm");
    await page.getByRole("button", { name: "See what follows" }).click();
    await page.locator(".preview", { hasText: "This makes due again" }).waitFor();
    await page.getByRole("button", { name: "Record it" }).click();
    await page.locator(".litnote").waitFor();
    await page.locator(".tag.lit").first().waitFor();
    await page.getByRole("link", { name: "Faults" }).click();
    await fault.getByRole("heading", { name: /mended/ }).waitFor();
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

  it("every record card is there, is typed by the tab key alone, survives a reload and is kept", async () => {
    const page = await open(jobHash("Harbour", "records"));
    for (const f of forms) await page.getByRole("button", { name: f.title }).first().waitFor();
    await page.getByRole("button", { name: "Voltage chart" }).click();
    await page.getByLabel("Tube, row 1", { exact: true }).focus();
    for (const text of ["V1", "5", "plate", "250", "", "", "243"]) {
      if (text) await page.keyboard.type(text);
      await page.keyboard.press("Tab");
    }
    await page.reload();
    expect(await page.getByLabel("Measured V, row 1").inputValue()).toBe("243");
    await page.getByRole("button", { name: "Keep this card" }).click();
    await page.getByText("Kept. What was there before stays").waitFor();
    await page.close();
  });

  it("judges a card's cell as it is typed; one that can't be read stays where it is and costs the others nothing", async () => {
    const page = await open(jobHash("double-conversion", "records"));
    await page.getByRole("button", { name: "Capacitor survey" }).click();
    await page.getByLabel("Value, row 1", { exact: true }).fill("110");
    await page.locator(".chart .said.wrong", { hasText: "Expected" }).waitFor();
    await page.getByLabel("Rated V, row 1", { exact: true }).fill("500");
    await page.getByRole("button", { name: "Keep this card" }).click();
    await page.getByText("Kept, except what is marked").waitFor();
    await page.getByLabel("Value, row 1", { exact: true }).fill("110 pF");
    await page.getByRole("button", { name: "Keep this card" }).click();
    await page.getByText("Kept. What was there before stays").waitFor();
    await page.reload();
    expect(await page.getByLabel("Value, row 1", { exact: true }).inputValue()).toBe("110 pF");
    expect(await page.getByLabel("Rated V, row 1", { exact: true }).inputValue()).toBe("500");
    await page.close();
  });

  it("a chart typed on its card is judged as this meter sees it, its stage ranked with a tie, and marks are told", async () => {
    const page = await open(jobHash("Harbour", "records"));
    await page.getByRole("button", { name: "Voltage chart" }).click();
    const rows = [
      ["V4 first IF", "5", "plate", "225", "2.2k", "242"],
      ["V4 first IF", "6", "screen", "100", "33k", "66.5"],
      ["V4 first IF", "7", "cathode", "1.05", "60", "0.58"],
    ];
    const heads = ["Tube", "Pin", "Electrode", "Chart V", "Source Ω if known", "Measured V"];
    for (const [r, row] of rows.entries())
      for (const [c, text] of row.entries()) await page.getByLabel(`${heads[c]}, row ${r + 1}`, { exact: true }).fill(text);
    await page.getByRole("button", { name: "Keep this card" }).click();
    await page.getByText("Kept. What was there before stays").waitFor();
    await page.goto(`${at.url}${jobHash("Harbour", "sheet", "volts")}`);
    await page.locator(".headline", { hasText: "V4 pin 6, screen is low" }).waitFor();
    await page.goto(`${at.url}${jobHash("Harbour", "sheet", "suspects", "stages.if1")}`);
    await page.locator(".headline", { hasText: "These readings can't tell them apart" }).waitFor();
    // where the state turns open, and not again while it stays
    expect(await page.locator(".finding .cautions", { hasText: "B+ kills" }).count()).toBe(1);
    await page.goto(`${at.url}${jobHash("Harbour", "parts")}`);
    await page.locator(".parts td", { hasText: "line fuse and holder" }).waitFor();
    await page.getByLabel("Which code").selectOption("mica-dots");
    await page.getByLabel("Colours in order, or the code").fill("red green black");
    await page.getByText("25 pF, ±20 %, 500 V").waitFor();
    await page.close();
  });

  it("shows at once what another process records, and keeps what is typed when the server goes", async () => {
    const page = await open(jobHash("Harbour", "set"));
    await page.locator("details", { hasText: "Line and supplies" }).locator("summary").click();
    await page.locator("#d-line-voltage").fill("229 V");
    const other = await openSqlite(at.store);
    await other.append("Harbour", [
      {
        id: "x1",
        at: "2026-02-02T00:00:00.000Z",
        who: "t",
        kind: "values",
        values: { "line.frequency": { value: 49.9, spread: { shape: "exact" }, origin: "measured", source: "counter" } },
        why: "counter",
      },
    ]);
    await page.getByText("49.9 Hz").waitFor();
    await other.close();
    await at.crash(() => page.getByText("Fettle isn't answering").waitFor());
    // a server started anew has an address of its own; on the same port the browser still keeps what was typed
    await page.goto(`${at.url}${jobHash("Harbour", "set")}`);
    await page.locator("details", { hasText: "Line and supplies" }).locator("summary").click();
    expect(await page.getByText("Fettle isn't answering").count()).toBe(0);
    expect(await page.locator("#d-line-voltage").inputValue()).toBe("229 V");
    await page.getByRole("button", { name: /Keep 1 value/ }).click();
    await page.getByText("Kept. Earlier values stay").waitFor();
    await page.close();
  });

  it("makes a job by keyboard alone, with a visible focus", async () => {
    const page = await open("#/");
    await page.getByLabel("Name of the job").waitFor();
    for (let i = 0; i < 40; i++) {
      await page.keyboard.press("Tab");
      if (await page.evaluate(() => document.activeElement?.getAttribute("placeholder") === "Whose set, which set")) break;
    }
    expect(await page.evaluate(() => getComputedStyle(document.activeElement!).outlineStyle)).toBe("solid");
    await page.keyboard.type("By keys");
    await page.keyboard.press("Enter");
    await page.locator(".jobname", { hasText: "By keys" }).waitFor();
    await page.close();
  });

  it("makes a job described from nothing, with a bad field answered at once and what is typed kept over a reload", async () => {
    const page = await open("#/");
    await page.getByRole("link", { name: "described from scratch" }).click();
    await page.getByLabel("Name of the job").fill("From nothing");
    await page.getByLabel("IF", { exact: true }).fill("465 V");
    await page.locator("#o-intermediateFrequency-said.wrong", { hasText: "expected a frequency" }).waitFor();
    await page.getByLabel("IF", { exact: true }).fill("465 kc");
    await page.getByLabel("IF cans").selectOption("2");
    await page.getByLabel(/Bands, one a line/).fill("1.5 - 4.3 MHz\nnot a band");
    await page.getByText("bands line 2: read “not a band”").waitFor();
    await page.getByLabel(/Bands, one a line/).fill("1.5 - 4.3 MHz\n7 - 7.3 MHz spread");
    await page.reload();
    expect(await page.getByLabel("IF", { exact: true }).inputValue()).toBe("465 kc");
    await page.getByRole("button", { name: "Start this job" }).click();
    await page.locator(".jobname", { hasText: "From nothing" }).waitFor();
    await page.locator(".tag strong", { hasText: "Second IF can" }).waitFor();
    expect(await page.locator(".tag strong", { hasText: /IF can$/ }).count()).toBe(2);
    await page.getByRole("alert").filter({ hasText: "counts as live" }).waitFor();
    await page.close();
  });
  it("copies a set, searches the list, and finds the copy with its state", async () => {
    const page = await open("#/");
    const panel = page.locator("#copy");
    await panel.getByLabel("From").fill("Harbour");
    await panel.getByLabel("Name of the copy").fill("Harbour, second");
    await panel.getByRole("button", { name: "Copy it" }).click();
    await page.locator(".jobname", { hasText: "Harbour, second" }).waitFor();
    await page.goto(`${at.url}#/`);
    await page.getByLabel("Search").fill("second");
    await page.waitForFunction(() => document.querySelectorAll(".joblist li").length === 1);
    await page.locator(".joblist li", { hasText: "0 of" }).waitFor();
    await page.getByLabel("Search").fill("no such job");
    await page.getByText("No job of that name or title.").waitFor();
    await page.evaluate(() => localStorage.clear());
    await page.close();
  });
  it("erases a job only once its name is typed again, with its zip among the downloads first", async () => {
    const page = await open("#/");
    const copy = page.locator("#copy");
    await copy.getByLabel("From").fill("Harbour");
    await copy.getByLabel("Name of the copy").fill("To be gone");
    await copy.getByRole("button", { name: "Copy it" }).click();
    await page.locator(".jobname", { hasText: "To be gone" }).waitFor();
    await page.goto(`${at.url}#/`);
    const panel = page.locator("#erase");
    await panel.locator("summary").click();
    await panel.getByLabel("Job to erase").fill("To be gone");
    const button = panel.getByRole("button", { name: "Erase it" });
    expect(await button.isDisabled()).toBe(true);
    await panel.getByLabel("Its name, typed again").fill("To be gone");
    const zip = page.waitForEvent("download");
    await button.click();
    expect((await zip).suggestedFilename()).toBe("To be gone.zip");
    await panel.getByText('Erased "To be gone"').waitFor();
    await page.waitForFunction(() => ![...document.querySelectorAll(".joblist a")].some((a) => a.textContent === "To be gone"));
    await page.evaluate(() => localStorage.clear());
    await page.close();
  });
  it("stops what takes long: the plan of work, and the report", async () => {
    const page = await open(jobHash("Harbour", "work"));
    await page.route("**/work", (r) => setTimeout(() => void r.continue().catch(() => undefined), 1500));
    await page.getByRole("button", { name: "See what it disturbs" }).click();
    await page.locator("#work").getByText("Working out what it disturbs…").waitFor();
    await page.locator("#work").getByRole("button", { name: "Stop" }).click();
    await page.locator("#work").getByText("Stopped.").waitFor();
    await page.waitForTimeout(1800);
    expect(await page.locator("#work .preview").count()).toBe(0);
    await page.locator(".more > summary").click();
    await page.getByRole("button", { name: "Report (PDF)" }).click();
    await page.getByRole("button", { name: "Stop writing" }).click();
    await page.locator(".report").getByText("Stopped.").waitFor();
    await page.close();
  });
  it("takes zero beats in the rhythm of the bench: reading, enter, the next; the law follows, the odd one is named at once", async () => {
    const page = await open(jobHash("nine-tube-bandspread", "dial"));
    await page.locator("#beats select").first().selectOption("80");
    const beats = inventDial({ ...dialCases[3], lowHz: 3.5e6, highHz: 4e6, spacingHz: 100e3 }, 12);
    const field = page.getByLabel("Scale reading");
    await field.focus();
    for (const [i, p] of beats.points.slice(0, 5).entries()) {
      await page.getByText(`Next: ${3500 + 100 * i} kHz`).waitFor();
      await page.keyboard.type(p.reading.toFixed(1));
      await page.keyboard.press("Enter");
      await page.getByText(`${p.reading.toFixed(1)} is ${3500 + 100 * i} kHz.`).waitFor();
      expect(await field.evaluate((e) => document.activeElement === e)).toBe(true);
    }
    await page.locator("#law .headline", { hasText: "5 zero beats" }).waitFor();
    expect(await page.locator("#law .plot").count()).toBe(1);
    await page
      .getByText(/Next: 4000 kHz, expected near/)
      .waitFor({ timeout: 5000 })
      .catch(() => undefined);
    await page.getByLabel("Marker or station").fill("3.6 MHz");
    await field.fill(beats.points[3].reading.toFixed(1));
    await page.locator("#beat-said.wrong", { hasText: "Is it the marker at 3.8 MHz?" }).waitFor();
    await field.fill("");
    await page.getByRole("button", { name: "Take back row 5" }).click();
    await page.getByText("is taken back; it stays in the history.").waitFor();
    await page.locator("#law .headline", { hasText: "4 zero beats" }).waitFor();
    await field.fill("about forty");
    await page.locator("#beat-said.wrong", { hasText: "Can't read “about forty” as a scale reading" }).waitFor();
    await field.fill("");
    await page.getByRole("button", { name: "ITU Region 2" }).click();
    await page.locator("#region").waitFor({ state: "detached" });
    await page.close();
  });
  it("marks the zero beat that does not fit, and puts card and scale on paper", async () => {
    const page = await open(jobHash("Harbour", "dial"));
    await page.locator("#beats select").first().selectOption("80");
    await page.locator("tr.odd", { hasText: "3750 kHz" }).waitFor();
    await page.locator("#law", { hasText: "it was mistaken for its neighbour" }).waitFor();
    await page
      .locator("#law")
      .getByRole("button", { name: /^Take back row \d+$/ })
      .waitFor();
    for (const [button, start] of [
      ["Calibration card (PDF)", "%PDF-"],
      ["Scale (PDF)", "%PDF-"],
      ["Scale (SVG)", "<svg "],
    ]) {
      const download = page.waitForEvent("download");
      await page.getByRole("button", { name: button }).click();
      expect(readFileSync((await (await download).path())!, "utf8").slice(0, 5)).toBe(start);
    }
    await page.getByLabel("Radius, mm").fill("900");
    await page.getByRole("button", { name: "Scale (PDF)" }).click();
    await page.locator("#papers .issues", { hasText: "radius" }).waitFor();
    await page.evaluate(() => localStorage.clear());
    await page.close();
  });
  it("shows the demo to somebody who has no job yet", async () => {
    const page = await open("#/");
    await page.getByRole("button", { name: "Look at the demo set" }).click();
    await page.locator(".jobname", { hasText: "Harbour club set" }).waitFor();
    await page.locator("#next h3", { hasText: "Capacitors: which go" }).waitFor();
    await page.close();
  });
  it("shrinks a photograph to 2000 pixels at its longest, and leaves a small one as it came", async () => {
    const page = await open(jobHash("Harbour", "readings"));
    const picture = (width: number, height: number): Promise<number[]> =>
      page.evaluate(
        async ([w, h]) => {
          const c = new OffscreenCanvas(w, h);
          const g = c.getContext("2d")!;
          for (let i = 0; i < 400; i++) {
            g.fillStyle = `hsl(${(i * 47) % 360} 80% ${30 + (i % 40)}%)`;
            g.fillRect((i * 97) % w, (i * 61) % h, w / 7, h / 9);
          }
          return [...new Uint8Array(await (await c.convertToBlob({ type: "image/png" })).arrayBuffer())];
        },
        [width, height],
      );
    const large = Buffer.from(await picture(3200, 2400));
    const small = Buffer.from(await picture(300, 200));
    await page.locator("#photos input[type=file]").setInputFiles([
      { name: "chassis.png", mimeType: "image/png", buffer: large },
      { name: "cord.png", mimeType: "image/png", buffer: small },
    ]);
    await page.getByText("Kept chassis.png, cord.png.").waitFor();
    await page.locator(".photos img").nth(1).waitFor();
    await page.close();
    const store = await openSqlite(at.store);
    const files = (await store.files("Harbour")).filter((f) => f.media.startsWith("image/"));
    await store.close();
    expect(files.map((f) => f.name).sort()).toEqual(["chassis.jpg", "cord.png"]);
    const jpeg = files.find((f) => f.name === "chassis.jpg")!.bytes;
    expect(jpeg.length).toBeLessThan(large.length);
    // start of frame: height and width stand after its length and precision (ITU-T T.81 B.2.2)
    const frame = jpeg.findIndex((b, i) => b === 0xff && (jpeg[i + 1] === 0xc0 || jpeg[i + 1] === 0xc2));
    expect([jpeg[frame + 5] * 256 + jpeg[frame + 6], jpeg[frame + 7] * 256 + jpeg[frame + 8]]).toEqual([1500, 2000]);
    expect(Buffer.from(files.find((f) => f.name === "cord.png")!.bytes).equals(small)).toBe(true);
  });
  it.skipIf(!existsSync(realSweep))("reads a real sweep by others, dropped on the page", async () => {
    const page = await open(jobHash("Harbour", "readings"));
    const data = await page.evaluateHandle(
      ([name, text]) => {
        const d = new DataTransfer();
        d.items.add(new File([text], name));
        return d;
      },
      ["crystal.s2p", readFileSync(realSweep, "utf8")],
    );
    await page.dispatchEvent(".drop", "drop", { dataTransfer: data });
    await page.locator(".preview .raw svg").waitFor();
    await page.getByLabel("What it is").filter({ visible: true }).selectOption("sweep");
    await page.getByRole("button", { name: "Keep this reading" }).click();
    await page.getByText(/Recorded r/).waitFor();
    await page.locator("#kept", { hasText: "crystal.s2p" }).waitFor();
    await page.close();
  });
  it("does the whole main job by clicks and keys, from a new job to the report on disk", async () => {
    const page = await open("#/");
    await page.getByLabel("Name of the job").fill("Whole job");
    await page.getByRole("radio", { name: /^General-coverage nine-tube set with bandspread/ }).click();
    await page.getByRole("button", { name: "Start this job" }).click();
    await page.locator(".jobname", { hasText: "Whole job" }).waitFor();
    await page.getByRole("link", { name: "Cards", exact: true }).click();
    await page.getByRole("button", { name: "Safety record, coming in" }).click();
    for (const [field, text] of Object.entries(safetyIn)) await page.getByLabel(field, { exact: true }).fill(text);
    await page.getByRole("button", { name: "Keep this card" }).click();
    await page.getByText("Kept. What was there before stays").waitFor();
    await page.locator(".more > summary").click();
    await page.getByRole("link", { name: "Describe the set" }).click();
    await page.getByLabel(/^isolated: it has its own power transformer/).check();
    await page.getByLabel(/ohms from each blade of the plug/).fill("45 Mohm");
    await page.getByLabel("Meter", { exact: true }).fill("insulation tester");
    await page.getByLabel(/^What was traced/).fill("each blade to chassis, switch on");
    await page.getByRole("button", { name: "Go on" }).click();
    await page.getByRole("button", { name: /^Once more: isolated/ }).click();
    await page.locator(".danger-line").waitFor({ state: "detached" });
    await page.getByRole("link", { name: "The set", exact: true }).click();
    for (const task of ["Look it over, switched off and unplugged", "Isolation, cord, fuse, line bypass", "Ohms at the supply"]) {
      const item = page.locator(".next li", { hasText: task }).first();
      await item.locator("summary").click();
      await item.getByLabel("What proves it").fill("looked and measured");
      await item.getByRole("button", { name: `It is proved: ${task}` }).click();
      await page.locator("#changed", { hasText: `proved: ${task} (looked and measured)` }).waitFor();
    }
    await page.locator(".more > summary").click();
    await page.getByRole("link", { name: "Describe the set" }).click();
    await page.locator("details", { hasText: "Line and supplies" }).locator("summary").click();
    await page.locator("#d-line-voltage").fill("121 V ±1 V");
    await page.getByRole("button", { name: "Keep 1 value" }).click();
    await page.getByText("Kept. Earlier values stay").waitFor();
    await page.getByRole("link", { name: "Readings", exact: true }).click();
    const file = join(at.folder, "whole.csv");
    const swept = inventSweep(mediumStrip(455e3), { centreHz: 455e3, halfSpanHz: 14_000, points: 201 }, { db: 0.1, peakDb: 0 }, 4);
    writeFileSync(file, ["Hz,dB", ...Array.from(swept.frequencyHz, (hz, i) => `${hz},${swept.levelDb[i]}`)].join("\n"));
    await page.getByText("More about the reading").click();
    await page.getByLabel("Line voltage when it was taken").fill("121 kHz");
    await page.locator("#read input[type=file]").setInputFiles(file);
    await page.locator("#read .issues", { hasText: "lineVoltage" }).waitFor();
    await page.getByLabel("Line voltage when it was taken").fill("121 V");
    await page.getByText("It tells").waitFor();
    await page.getByRole("button", { name: "Keep this reading" }).click();
    await page.getByText(/Recorded r/).waitFor();
    await page.getByRole("link", { name: "The set", exact: true }).click();
    await page.locator(".tag", { hasText: "First IF can" }).click();
    await page.locator(".opened").getByRole("link", { name: "What does a cable on the mixer plate do, and can it be tuned out?" }).click();
    await page.getByText("Draw again with another seed").click();
    await page.getByLabel(/^Draws/).fill("500");
    await page.getByText("seed 1, 500 draws").waitFor();
    await page.locator("#in-cableLength").fill("5 ft");
    await page.getByText("The job's own curves are drawn dashed.").waitFor();
    await page.getByRole("button", { name: "Keep in the job" }).click();
    await page.getByText("Kept in the job as assumed").waitFor();
    await page.getByRole("link", { name: "The set", exact: true }).click();
    await page.locator(".more > summary").click();
    await page.getByRole("link", { name: "Record work done" }).click();
    await page.getByRole("button", { name: "See what it disturbs" }).click();
    await page.locator("#work .preview").waitFor();
    await page.getByLabel("length of the cable as fitted").fill("5 ft");
    await page.getByRole("button", { name: "Record it" }).click();
    await page.locator("#changed", { hasText: "Cable fitted at the mixer plate" }).waitFor();
    await page.getByRole("link", { name: "The set", exact: true }).click();
    await page.locator("#next h3", { hasText: "Capacitors: which go" }).waitFor();
    const download = page.waitForEvent("download");
    await page.locator(".more > summary").click();
    await page.getByRole("button", { name: "Report (PDF)" }).click();
    expect(readFileSync((await (await download).path())!).length).toBeGreaterThan(20_000);
    await page.close();
  });
  it("asked nothing of any other machine, and met no error of its own", () => {
    expect(at.complaints).toEqual([]);
  });
});

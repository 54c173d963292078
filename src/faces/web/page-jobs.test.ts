/** Jobs as a whole on the page in a real browser: made, copied, erased, stopped; the whole main job by clicks and keys. */

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { inventSweep } from "../../invented/strip";
import { safetyIn } from "../../job/proved.testdata";
import { mediumStrip } from "../../set/patterns/strips";
import { executablePath, type InBrowser, inBrowser, jobHash } from "./in-browser.testdata";
import { benchOfJobs } from "./page.testdata";

let at: InBrowser;
const open = (hash: string, width = 1600): Promise<Page> => at.open(hash, { width, height: 900 });
describe.runIf(executablePath)("jobs on the page", () => {
  beforeAll(async () => {
    at = await inBrowser(benchOfJobs);
  });
  afterAll(() => at?.close());

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
    await page.waitForFunction(() => document.querySelector(".joblist")?.querySelectorAll("li").length === 1);
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
  it("shows the demo to somebody who has no job yet", async () => {
    const page = await open("#/");
    await page.getByRole("button", { name: "Look at the demo set" }).click();
    await page.locator(".jobname", { hasText: "Harbour club set" }).waitFor();
    await page.locator("#next h3", { hasText: "Capacitors: which go" }).waitFor();
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

/** Files by content: dropped, told, drawn with axes, kept by one act. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demoSweepCsv, demoZeroBeatsCsv } from "../../desk/demo";
import { playedDemo } from "./chassis.testdata";
import { executablePath, type InBrowser, inBrowser, jobHash, violations } from "./in-browser.testdata";

let at: InBrowser;
const place = jobHash("Club set", "readings");
describe.runIf(executablePath)("a dropped file", () => {
  beforeAll(async () => {
    at = await inBrowser(playedDemo);
  });
  afterAll(() => at?.close());
  const file = (name: string, text: string): string => {
    const to = join(at.folder, name);
    writeFileSync(to, text);
    return to;
  };

  it("is told by its content, drawn over axes with their units, and the same once more is told", async () => {
    const page = await at.open(place);
    const picker = page.locator("#read input[type=file]");
    await picker.setInputFiles(file("a.bin", demoSweepCsv()));
    await page.getByText(/A sweep of \d+ points, .*\skHz: around this set's IF/).waitFor();
    const words = await page.locator(".preview .raw svg text").allTextContents();
    expect(words).toContain("frequency, kHz");
    expect(words).toContain("level, dB");
    await page.getByText("It tells").waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole("button", { name: "Keep this reading" }).click();
    await page.getByText(/^Recorded r/).waitFor();
    await picker.setInputFiles(file("b.bin", demoSweepCsv()));
    await page.locator(".preview .warn", { hasText: "the same file is in the job already" }).waitFor();
    await page.getByRole("button", { name: "Leave it" }).click();
    await picker.setInputFiles(file("c.bin", demoZeroBeatsCsv()));
    await page.getByText(/\d+ zero beats of a dial/).waitFor();
    await page.getByLabel("Main dial set to").waitFor();
    await page.close();
  });

  it("that is a chart goes to its card, one that nobody knows is kept nowhere", async () => {
    const page = await at.open(place);
    const picker = page.locator("#read input[type=file]");
    await picker.setInputFiles(file("d.txt", "Tube,Pin,Electrode,Measured V\nV4 first IF,6,screen,98\n"));
    await page.getByText("Voltage chart: one row").waitFor();
    await page.getByRole("button", { name: "Write it on the card" }).click();
    await page.getByLabel("Measured V, row 5", { exact: true }).waitFor();
    await page.waitForFunction(() => (document.querySelector('[aria-label="Measured V, row 5"]') as HTMLInputElement).value === "98");
    await page.goto(`${at.url}${place}`);
    await page.locator("#read input[type=file]").setInputFiles({ name: "x.csv", mimeType: "text/csv", buffer: Buffer.from([0, 1, 2, 3]) });
    await page.getByText("Nothing that is known here").waitFor();
    expect(await page.getByRole("button", { name: /^Keep/ }).count()).toBe(0);
    await page.close();
  });
  it("met no error of its own", () => expect(at.complaints).toEqual([]));
});

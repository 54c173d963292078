/** What is written and read in, on the page in a real browser: cards, zero beats, photographs, files; beside another process. */

import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { dialCases, inventDial } from "../../infer/dial/possible-dials";
import { forms } from "../../job/forms";
import { openSqlite } from "../../store/sqlite";
import { executablePath, type InBrowser, inBrowser, jobHash } from "./in-browser.testdata";
import { benchOfJobs } from "./page.testdata";

const realSweep = join(import.meta.dirname, "..", "..", "..", "..", "shared", "readings", "crystal-10MHz", "Top_C300_25C.s2p");
let at: InBrowser;
const open = (hash: string, width = 1600): Promise<Page> => at.open(hash, { width, height: 900 });
describe.runIf(executablePath)("records on the page", () => {
  beforeAll(async () => {
    at = await inBrowser(benchOfJobs);
  });
  afterAll(() => at?.close());

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
    // its next test is an ohmmeter on a dead set: to discharge it is said where the state turns open, and not again while it stays
    await page.locator(".finding", { hasText: "lift one lead of the screen resistor" }).waitFor();
    expect(await page.locator(".finding .cautions", { hasText: "MEASURE before you touch" }).count()).toBe(1);
    expect(await page.locator(".finding .cautions", { hasText: "B+ kills" }).count()).toBe(0);
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
  it("asked nothing of any other machine, and met no error of its own", () => {
    expect(at.complaints).toEqual([]);
  });
});

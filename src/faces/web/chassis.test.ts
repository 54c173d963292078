/** At the chassis: a device joins, types a column with its thumb, is shown and sent away. */
import { decodeQR } from "qr/decode.js";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { playedDemo } from "./chassis.testdata";
import { executablePath, type InBrowser, inBrowser, jobHash, noSideways, violations } from "./in-browser.testdata";

const phone = { width: 390, height: 844 };
let at: InBrowser;

describe.runIf(executablePath)("at the chassis", () => {
  beforeAll(async () => {
    at = await inBrowser(playedDemo);
  });
  afterAll(() => at?.close());

  it("a phone joins by the picture of a code, types a reading, and is sent away", async () => {
    const bench = await at.open(jobHash("Club set", "join"));
    await bench.getByRole("button", { name: "Make a code" }).click();
    const code = (await bench.locator(".big.code").textContent())?.replace(/\s/g, "") ?? "";
    const address = (await bench.locator(".address").textContent()) ?? "";
    // read back by another library than the one that drew it
    const picture = await bench.locator(".qr").evaluate(async (svg) => {
      const image = new Image();
      image.src = `data:image/svg+xml;utf8,${encodeURIComponent(new XMLSerializer().serializeToString(svg))}`;
      await image.decode();
      const canvas = new OffscreenCanvas(370, 370);
      const context = canvas.getContext("2d");
      context?.drawImage(image, 0, 0, 370, 370);
      return Array.from(context?.getImageData(0, 0, 370, 370).data ?? []);
    });
    expect(decodeQR({ width: 370, height: 370, data: Uint8Array.from(picture) })).toBe(`${address}#/join/${code}`);
    expect(await violations(bench)).toEqual([]);

    const door = await at.open(`#/join/${code}`, phone, address);
    expect(await door.getByLabel("The code on Fettle's own page").inputValue()).toBe(code);
    expect(await violations(door)).toEqual([]);
    await door.getByLabel(/^What this device is called/).fill("pocket");
    await door.getByRole("button", { name: "Join" }).click();
    await door.locator(".bigpage").waitFor();
    await bench.getByText("pocket").first().waitFor();
    expect(await bench.locator(".codeshown").count()).toBe(0);

    await door.getByLabel("Card").selectOption("voltage-chart");
    await door.getByRole("heading", { name: "Line volts" }).waitFor();
    for (const key of ["2", "3", "5"]) await door.getByRole("button", { name: key, exact: true }).click();
    await door.getByRole("button", { name: "Keep, go on" }).click();
    await door.getByRole("heading", { name: "V1 pin 5, plate" }).waitFor();
    await bench.goto(`${at.url}${jobHash("Club set")}`);
    await bench.locator("#changed", { hasText: "Voltage chart, Line volts: 235" }).waitFor();

    // what a device may not do isn't offered, and not reached by its address
    await door.goto(`${door.url().split("#")[0]}${jobHash("Club set")}`);
    await door.locator(".tag").first().click();
    await door.locator(".opened").waitFor();
    for (const none of ["Mend it", "Record work here", "Take back", "It is proved…", "Export (zip)"])
      expect(await door.getByText(none, { exact: true }).count(), none).toBe(0);
    await door.goto(`${door.url().split("#")[0]}${jobHash("Club set", "mend")}`);
    await door.getByRole("heading", { name: "Not on this device" }).waitFor();

    await bench.goto(`${at.url}${jobHash("Club set", "join")}`);
    await bench.getByRole("button", { name: "Send pocket away" }).click();
    await bench.getByText("Nobody.").waitFor();
    await door.locator(".gone").waitFor();
  });

  it("one figure, one field and one button stand in sight on a phone, with the caution, each key as large as a thumb", async () => {
    const page = await at.open(jobHash("Club set", "big", "voltage-chart"), phone);
    const parts = [".heed", ".point h1", ".bigfield", ".saidbig", ".keypad", ".bigact"];
    await page.locator(".keypad").waitFor();
    for (const part of parts) {
      const box = await page.locator(part).boundingBox();
      expect((box?.y ?? -1) >= 0 && (box?.y ?? 0) + (box?.height ?? 999) <= phone.height, part).toBe(true);
    }
    for (const key of await page.locator(".key").all()) {
      const box = await key.boundingBox();
      // Source: WCAG 2.2, success criterion 2.5.5: targets of at least 44 by 44 CSS px
      expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(44);
    }
    expect(await violations(page)).toEqual([]);
    expect(await noSideways(page)).toBe(true);
    await page.close();
  });

  it("judges what is typed by chart, meter and line before it is kept, and refuses what can't be read", async () => {
    const page = await at.open(jobHash("Club set", "big", "voltage-chart"), phone);
    await page.getByRole("button", { name: "The next point" }).click();
    await page.getByRole("heading", { name: "V1 pin 5, plate" }).waitFor();
    await page.locator(".saidbig", { hasText: /should read \d/ }).waitFor();
    await page.locator(".bigfield input").fill("90");
    await page.locator(".saidbig.wrong", { hasText: /low: this meter should read 2\d\d\sV/ }).waitFor();
    await page.locator(".bigfield input").fill("9 kc");
    await page.locator(".saidbig.wrong", { hasText: "Expected" }).waitFor();
    expect(await page.locator(".keep").isDisabled()).toBe(true);
    await page.close();
  });

  it("speaks and listens only when it is told to, and says before where sound may go", async () => {
    const page = await at.open(jobHash("Club set", "big"), phone);
    await page.getByText("Screen, voice and ear").click();
    expect(await page.getByLabel(/^Say aloud/).isChecked()).toBe(false);
    expect(await page.getByLabel(/^Listen for readings/).isChecked()).toBe(false);
    const listens = page.locator(".helpers", { hasText: /may send what it hears to its maker|can't listen at this address/ });
    await listens.waitFor();
    await page.close();
  });

  it("met no error of its own, and asked no other machine", () => expect(at.complaints).toEqual([]));
});

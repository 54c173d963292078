/** Two browsers on two benches at work on one job in PostgreSQL, while one bench's own Fettle is killed again and again. Skipped by name where either is not installed. */
import type { BrowserContext, Page, Route } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import { patterns } from "../../set/patterns/kinds";
import { bothHomes } from "../../store/both-homes.testdata";
import { openHome } from "../../store/home";
import { setUpShop } from "../../store/set-up-shop";
import { executablePath, launched, patient } from "./chromium.testdata";
import { jobHash, served } from "./in-browser.testdata";

const { inShop, shop } = bothHomes("two-benches");
const rounds = 3;
const open: { close: () => Promise<void> }[] = [];
afterAll(async () => {
  for (const o of open.reverse()) await o.close();
});
const field = (page: Page, name: string) => page.getByLabel(name, { exact: true }).first();
async function write(page: Page, name: string, text: string): Promise<void> {
  await field(page, name).fill(text);
  await page.getByRole("button", { name: "Keep this card" }).click();
}

inShop("two browsers on two benches", () => {
  describe.runIf(executablePath)("in a real browser", () => {
    it("lose nothing and double nothing while one bench's Fettle is killed in mid-write, and each shows what the other wrote", async () => {
      const { owner, server } = await shop().accounts();
      await setUpShop(owner, new URL(server).username);
      const store = await openHome({ kind: "shop", url: server });
      open.push(store);
      await store.create({ id: "m", name: "Mill", created: "2026-02-01T00:00:00.000Z", set: patterns[0], entries: [] });
      const start = (who: string, port?: string) => served({ FETTLE_DATABASE_URL: server, FETTLE_WHO: who }, port);
      let [ann, ben] = [await start("ann"), await start("ben")];
      open.push({ close: async () => void [ann, ben].map((s) => s.process.kill("SIGKILL")) });
      const browser = await launched();
      open.push(browser);
      const pageAt = async (context: BrowserContext, url: string): Promise<Page> => {
        const page = await context.newPage();
        patient(page);
        await page.goto(`${url}${jobHash("Mill", "records", "intake")}`);
        await field(page, "Owner").waitFor();
        return page;
      };
      const [annsPage, bensPage] = [await pageAt(await browser.newContext(), ann.url), await pageAt(await browser.newContext(), ben.url)];
      const [anns, bens]: string[][] = [[], []];
      const lost: number[] = [];
      const byAnn = async (text: string): Promise<void> => {
        const recorded = annsPage.waitForResponse((r) => r.url().endsWith("/fill") && r.ok());
        await write(annsPage, "Owner", text);
        await recorded;
        anns.push(text);
      };
      const recordedUnheard = async (r: Route): Promise<void> => {
        lost.push((await r.fetch()).status());
        ben.process.kill("SIGKILL");
        await r.abort();
      };
      for (let round = 0; round < rounds; round++) {
        await byAnn(`the club, ${round}`);
        // recorded, and the answer lost with the server; in the second round on its way, recorded or not
        if (round !== 1) await bensPage.route("**/fill", recordedUnheard, { times: 1 });
        await write(bensPage, "Condition", `dusty, ${round}`);
        if (round === 1) ben.process.kill("SIGKILL");
        await bensPage.getByText("Fettle isn't answering").waitFor();
        await write(bensPage, "Condition", `cleaned, ${round}`);
        bens.push(`dusty, ${round}`, `cleaned, ${round}`);
        await bensPage.getByText(/Held in this browser until Fettle answers: [12] entr/).waitFor();
        await byAnn(`the club again, ${round}`);
        ben = await start("ben", new URL(ben.url).port);
        await bensPage.goto(`${ben.url}${jobHash("Mill", "records", "intake")}`);
        await field(bensPage, "Condition").waitFor();
        await bensPage.getByText("Held in this browser").waitFor({ state: "detached" });
      }
      expect(lost).toEqual([200, 200]);
      const written = async (who: string) =>
        (await store.load("Mill"))!.document.entries.flatMap((e) => (e.kind === "form" && e.who === who ? Object.values(e.fields) : []));
      expect(await written("ann")).toEqual(anns);
      expect(await written("ben")).toEqual(bens);
      await expect.poll(() => field(annsPage, "Condition").inputValue()).toBe(bens.at(-1));
      await expect.poll(() => field(bensPage, "Owner").inputValue()).toBe(anns.at(-1));
    });
  });
});

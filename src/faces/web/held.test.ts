/** A bench whose server is away: what is written is held in the browser, over a reload, and sent once it answers; in a real browser. */
import { afterAll, beforeAll, expect, describe as group, it } from "vitest";
import type { Entry } from "../../job/document";
import { patterns } from "../../set/patterns/kinds";
import { openSqlite } from "../../store/sqlite";
import { executablePath, type InBrowser, inBrowser, jobHash } from "./in-browser.testdata";

let at: InBrowser;
const card = (id: string, who: string, fields: Readonly<Record<string, string>>, more = {}): Entry => ({
  id,
  at: "2026-02-01T00:00:00.000Z",
  who,
  kind: "form",
  form: "intake",
  fields,
  ...more,
});
const entriesOf = async (): Promise<readonly Entry[]> => {
  const store = await openSqlite(at.store);
  const { document } = (await store.load("Mill"))!;
  await store.close();
  return document.entries;
};
const fields = ["Owner", "How to reach the owner", "Condition", "Missing parts", "Symptoms", "Last used"];

group.runIf(executablePath)("a bench that was off-line", () => {
  beforeAll(async () => {
    at = await inBrowser((store) =>
      store.create({
        id: "m",
        name: "Mill",
        created: "2026-02-01T00:00:00.000Z",
        set: patterns[0],
        entries: [card("e0", "ann", { Date: "1 February" })],
      }),
    );
  });
  afterAll(() => at?.close());

  it("holds twenty entries over a reload, sends each once in its order when the server is back, and shows what somebody else wrote to the same place", async () => {
    const page = await at.open(jobHash("Mill", "records", "intake"));
    const field = (name: string) => page.getByLabel(name, { exact: true }).first();
    await field("Owner").waitFor();
    const written: (readonly [string, string])[] = [];
    await at.crash(async () => {
      await page.getByText("Fettle isn't answering").waitFor();
      for (let i = 0; i < 20; i++) {
        const name = fields[i % fields.length];
        written.push([name, `${name}, as written ${i}`]);
        await field(name).fill(`${name}, as written ${i}`);
        await page.getByRole("button", { name: "Keep this card" }).click();
        await page.getByText(`Held in this browser until Fettle answers: ${i + 1} ${i === 0 ? "entry" : "entries"}.`).waitFor();
      }
      expect(await field("Owner").inputValue()).toBe("Owner, as written 18");
      // a page that is asked for again now is not there; what it held is
      await page.reload().catch(() => undefined);
      // meanwhile somebody else, who had the same before them
      const store = await openSqlite(at.store);
      await store.append("Mill", [card("b1", "ben", { "Last used": "1962" }, { seen: "e0" })]);
      await store.close();
    });
    await page.goto(`${at.url}${jobHash("Mill", "records", "intake")}`);
    await page.getByText("Held in this browser").waitFor({ state: "detached" });
    const own = (await entriesOf()).filter((e) => e.kind === "form" && e.who !== "ann" && e.who !== "ben");
    expect(own.map((e) => e.kind === "form" && Object.entries(e.fields)[0])).toEqual(written);
    expect(new Set(own.map((e) => e.seen)).size).toBe(1);
    expect(own[0].seen).toBe("e0");
    await page.goto(`${at.url}${jobHash("Mill")}`);
    const crossing = page.locator(".crossing");
    // the page may have read the job while its entries were still on their way: it catches up
    await crossing
      .filter({ hasText: "has two values" })
      .filter({ hasText: "1962" })
      .filter({ hasText: "Last used, as written 17" })
      .waitFor();
    await page.reload();
    await crossing.first().waitFor();
    expect(await entriesOf()).toHaveLength(22);
    await page.close();
  });

  it("says beside each act that can't be held that it can't, with what to do instead, for as long as the server is away", async () => {
    const [jobs, job, readings] = [await at.open("#/"), await at.open(jobHash("Mill")), await at.open(jobHash("Mill", "readings"))];
    await jobs.locator("#erase summary").click();
    const said = [
      [jobs, "#erase", "a job is erased as it was last seen, with its zip kept first. Erase it once Fettle answers."],
      [jobs, "#copy", "somebody else may have taken its name by then. Copy it once Fettle answers."],
      [jobs, "#new", "somebody else may have taken its name by then. Make it once Fettle answers."],
      [jobs, "#import", "Keep it where it is, and read it in once Fettle answers."],
      [job, "#changed", "Take an entry back by itself instead."],
      [readings, "#read", "Keep it where it is, and read it in once Fettle answers."],
      [readings, "#photos", "Keep it where it is, and read it in once Fettle answers."],
    ] as const;
    for (const [page, where] of said) await page.locator(where).waitFor();
    const away = (page: typeof jobs, where: string) =>
      page.locator(where).getByText("While Fettle is away this is neither done nor held here");
    for (const [page, where] of said) expect(await away(page, where).count(), where).toBe(0);
    await at.crash(async () => {
      for (const [page, where, instead] of said) {
        await away(page, where).waitFor();
        expect(await away(page, where).textContent(), where).toContain(instead);
      }
    });
    for (const page of [jobs, job, readings]) await page.close();
  });
});

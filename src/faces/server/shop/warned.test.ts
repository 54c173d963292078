/** What a server says, when it starts and where it is asked how it is, of an account that could alter its own tables: it serves all the same. */
import { createServer } from "node:net";
import { expect, it } from "vitest";
import { bothHomes } from "../../../store/both-homes.testdata";
import { openHome } from "../../../store/home";
import { setUpShop } from "../../../store/set-up-shop";
import { asJson } from "./log";
import { planOf } from "./plan";
import { startShop } from "./start-shop";

const { inShop, database, shop } = bothHomes("warned");
const freePort = (): Promise<number> =>
  new Promise((done) => {
    const s = createServer().listen(0, "127.0.0.1", () => {
      const { port } = s.address() as { port: number };
      s.close(() => done(port));
    });
  });
/** What the log says besides starting and stopping, and what the machine's own programs are told. */
async function said(url: string) {
  const log: string[] = [];
  const metricsPort = await freePort();
  const plan = planOf({ host: "127.0.0.1", port: 0, proxy: "https://shop.example", names: [] });
  const running = await startShop({ kind: "shop", url }, plan, { metricsPort, log: (line) => log.push(asJson(line)) });
  const health = await (await fetch(`http://127.0.0.1:${metricsPort}/health`)).json();
  await running.close();
  return { log: log.map((l) => JSON.parse(l)).filter((l) => l.event === "warning"), health };
}

inShop("a shop's server", () => {
  it("that could alter its tables says so in plain words, first of all and whenever it is asked how it is", async () => {
    const { url } = await database();
    await (await openHome({ kind: "shop", url })).close();
    const { log, health } = await said(url);
    const says = expect.stringMatching(/could alter its tables .*could change or remove entries and the trail/);
    expect(log).toEqual([{ event: "warning", at: expect.any(String), says }]);
    expect(health).toEqual({ status: "ok", detail: [log[0].says] });
  });
  it("that could not says nothing of it", async () => {
    const { owner, server } = await shop().accounts();
    await setUpShop(owner, new URL(server).username);
    expect(await said(server)).toEqual({ log: [], health: { status: "ok" } });
  });
});

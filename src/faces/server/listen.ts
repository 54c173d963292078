import { randomBytes, randomInt, randomUUID } from "node:crypto";
import type { AddressInfo } from "node:net";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { serve as listen } from "@hono/node-server";
import { type Home, openHome } from "../../store/home";
import { InputError } from "../../units/issue";
import { builtThread, errandThreads } from "../errands/errand-threads";
import { errandsWhenAsked } from "../errands/errands-when-asked";
import { whoIsHere } from "../who";
import { serve, serveJoined } from "./app";
import { doorOf } from "./joining/door";
import { houseAddresses } from "./joining/house";
import { joining } from "./joining/joining";

export interface Running {
  /** with the secret in it: who has the address has the page */
  readonly url: string;
  readonly close: () => Promise<void>;
}

/**
 * Serves the page and the store on this machine only, at an address that nobody can guess: whoever records through it is who started it.
 *
 * @param home where the jobs are kept
 * @param port 0 for any free one
 * @param house addresses that a device of the house network could join at; nothing listens there before a code is made
 * @param tell hears what a person is to know of the store's opening
 * @returns address, and how to stop
 */
export async function startServer(
  home: Home,
  port: number,
  house: () => readonly string[] = houseAddresses,
  tell?: (said: string) => void,
): Promise<Running> {
  const store = await openHome(home, undefined, tell);
  const script = builtThread();
  const threads = script ? errandThreads(script) : undefined;
  const errands = threads ?? errandsWhenAsked(randomUUID);
  let at = "";
  const hosts = (): readonly string[] => [`127.0.0.1:${at}`, `localhost:${at}`];
  const who = whoIsHere(process.env, home);
  const page = join(dirname(fileURLToPath(import.meta.url)), "page");
  const newSecret = (): string => randomBytes(24).toString("base64url");
  const deskOf = (name: string) => () => ({ store, errands, stamp: { at: new Date().toISOString(), who: name, newId: randomUUID } });
  const comers = joining({ nowMs: Date.now, dice: randomInt, secret: newSecret });
  const door = doorOf({
    joining: comers,
    page,
    addresses: house,
    nowMs: Date.now,
    inside: ({ id, device, job, secret }, at) =>
      serveJoined({
        page,
        hosts: at,
        secret,
        job,
        may: () => comers.joined().some((s) => s.id === id),
        desk: deskOf(`${who} (${device})`),
      }),
  });
  const secret = newSecret();
  const app = serve({ page, hosts, secret, desk: deskOf(who), door });
  return new Promise((resolve, reject) => {
    const server = listen({ fetch: app.fetch, hostname: "127.0.0.1", port });
    server.once("error", (e: NodeJS.ErrnoException) =>
      reject(
        e.code === "EADDRINUSE"
          ? new InputError([{ path: "--port", code: "in-use", read: String(port), expected: "a free port: another server uses it" }])
          : e,
      ),
    );
    server.once("listening", () => {
      at = String((server.address() as AddressInfo).port);
      resolve({
        url: `http://127.0.0.1:${at}/${secret}/`,
        close: () =>
          new Promise((done) => {
            server.close(() => void Promise.all([store.close(), threads?.close(), door.close()]).then(() => done()));
            if ("closeAllConnections" in server) server.closeAllConnections();
          }),
      });
    });
  });
}

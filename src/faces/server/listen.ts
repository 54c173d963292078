import { randomBytes, randomUUID } from "node:crypto";
import type { AddressInfo } from "node:net";
import { userInfo } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { serve as listen } from "@hono/node-server";
import { openSqlite } from "../../store/sqlite";
import { InputError } from "../../units/issue";
import { builtThread, errandThreads } from "../errands/errand-threads";
import { errandsWhenAsked } from "../errands/errands-when-asked";
import { serve } from "./app";

export interface Running {
  /** with the secret in it: who has the address has the page */
  readonly url: string;
  readonly close: () => Promise<void>;
}

/**
 * Serves the page and the store on this machine only, at an address that nobody can guess: whoever records through it is who started it.
 *
 * @param path file of the store
 * @param port 0 for any free one
 * @returns address, and how to stop
 */
export async function startServer(path: string, port: number): Promise<Running> {
  const store = await openSqlite(path);
  const script = builtThread();
  const threads = script ? errandThreads(script) : undefined;
  const errands = threads ?? errandsWhenAsked(randomUUID);
  let at = "";
  const hosts = (): readonly string[] => [`127.0.0.1:${at}`, `localhost:${at}`];
  const who = userInfo().username;
  const page = join(dirname(fileURLToPath(import.meta.url)), "page");
  const secret = randomBytes(24).toString("base64url");
  const app = serve({
    page,
    hosts,
    secret,
    desk: () => ({ store, errands, stamp: { at: new Date().toISOString(), who, newId: randomUUID } }),
  });
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
            server.close(() => void Promise.all([store.close(), threads?.close()]).then(() => done()));
            if ("closeAllConnections" in server) server.closeAllConnections();
          }),
      });
    });
  });
}

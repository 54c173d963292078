import type { AddressInfo } from "node:net";
import { serve as listen, type ServerType } from "@hono/node-server";

/** A listener that can be opened and shut again and again, at one address at a time. */
export interface Listener {
  /** `host:port` while it is open; empty while it is shut */
  readonly host: () => string;
  /** opens it at an address, on any free port; nothing where it is open already */
  readonly open: (address: string) => Promise<void>;
  readonly shut: () => Promise<void>;
}

/** Listens for requests, shut at first. */
export function listener(fetch: (request: Request) => Response | Promise<Response>): Listener {
  let server: ServerType | undefined;
  let opening: Promise<void> | undefined;
  let host = "";
  const start = (hostname: string): Promise<void> =>
    new Promise((resolve, reject) => {
      const starting = listen({ fetch, hostname, port: 0 });
      starting.once("error", reject);
      starting.once("listening", () => {
        server = starting;
        host = `${hostname}:${(starting.address() as AddressInfo).port}`;
        resolve();
      });
    });
  return {
    host: () => host,
    open: async (address) => {
      if (server) return;
      opening ??= start(address).finally(() => {
        opening = undefined;
      });
      await opening;
    },
    shut: () => {
      const open = server;
      server = undefined;
      host = "";
      if (!open) return Promise.resolve();
      return new Promise((done) => {
        open.close(() => done());
        if ("closeAllConnections" in open) open.closeAllConnections();
      });
    },
  };
}

import { z } from "zod";
import { declare, field, nothing } from "../declare";

const port = (usage: string, says: string, unsaid: string) =>
  field(z.coerce.number().int().min(0, "a port from 0 to 65535").max(65535, "a port from 0 to 65535"), usage, says, { unsaid });

export const serve = declare({
  name: "serve",
  says: "serve a shop on the network: everybody signs in, over TLS; open serves this machine alone, and asks for no account",
  example: "fettle serve --host 192.168.1.10 --certificate shop.crt --key shop.key",
  records: false,
  takes: nothing,
  here: z.object({
    host: field(z.string(), "--host <address>", "address of this machine to listen at", { unsaid: "127.0.0.1" }),
    port: port("--port <n>", "port to listen at", "8443"),
    certificate: field(z.string().optional(), "--certificate <file>", "certificate of that address, as a PEM file"),
    key: field(z.string().optional(), "--key <file>", "its key, as a PEM file"),
    proxy: field(
      z.string().optional(),
      "--proxy <address>",
      "https address of your own proxy that does TLS and passes requests on to here; what it says of a sender is believed",
    ),
    proxyFrom: field(z.string().optional(), "--proxy-from <address>", "address that your proxy asks from; this machine's own if not given"),
    names: field(z.array(z.string()), "--name <host>", "another name that browsers know it by; may be given again", {
      unsaid: [],
      words: (words) => [...words],
    }),
    metrics: field(
      z.coerce.number().int().min(1, "a port from 1 to 65535").max(65535, "a port from 1 to 65535").optional(),
      "--metrics <port>",
      "port of this machine alone at which /metrics and /health answer",
    ),
  }),
  /** serving is the face's own */
  act: async () => undefined,
});

import { Hono } from "hono";
import { checked } from "../../../desk/declare";
import { joinSaid } from "../../../desk/join-said";
import { InputError, orThrow } from "../../../units/issue";
import { readJson } from "../../../units/json";
import { guard } from "../guard";
import { pageFiles } from "../page-files";
import type { Joining, Session } from "./joining";
import { listener } from "./listener";

/** How devices of the house network stand to this server. */
export interface DoorState {
  /** addresses of this machine that a device could join at */
  readonly addresses: readonly string[];
  /** the code that stands, and the address that it is typed at */
  readonly code?: { readonly code: string; readonly url: string; readonly forSeconds: number; readonly job: string };
  readonly joined: readonly { readonly id: string; readonly device: string; readonly job: string; readonly since: string }[];
}
/** The second listener, on the house network: opened with the first code, shut when no code stands and nobody is joined. */
export interface Door {
  readonly state: () => DoorState;
  readonly open: (job: string, address: string) => Promise<DoorState>;
  readonly sendAway: (id: string) => Promise<DoorState>;
  readonly close: () => Promise<void>;
}
export interface DoorOf {
  readonly joining: Joining;
  /** folder of the built page */
  readonly page: string;
  readonly addresses: () => readonly string[];
  /** what a device that has joined is served */
  readonly inside: (session: Session, hosts: () => readonly string[]) => Hono;
  readonly nowMs: () => number;
}

/** What stands at the door for whoever has not joined: the page itself, with nothing of any job, and the place to say the code. */
function doorApp(of: DoorOf, hosts: () => readonly string[], joined: (s: Session) => void): Hono {
  const app = new Hono();
  guard(app, { hosts, takesUploads: () => false });
  app.post("/api/join", async (c) => {
    const { code, device } = checked(joinSaid, orThrow(readJson(await c.req.text(), "body")));
    const session = of.joining.join(code, device);
    joined(session);
    return c.json({ at: session.secret, job: session.job });
  });
  app.all("/api/*", (c) => c.json(notJoined, 403));
  app.get("/:first/:rest{.*}", (c) => c.text("This device is not joined.\n", 403));
  pageFiles(app, of.page, "door");
  return app;
}
const notJoined = {
  issues: [{ path: "this device", code: "not-joined", read: "", expected: "to have joined: have a code made on Fettle's own page" }],
};
const firstOf = (request: Request): string => new URL(request.url).pathname.split("/")[1] ?? "";

/** How the door stands, as the page shows it. */
function stateOf(of: DoorOf, host: string): DoorState {
  const code = host === "" ? undefined : of.joining.standing();
  const left = code ? Math.max(0, Math.round((code.untilMs - of.nowMs()) / 1000)) : 0;
  return {
    addresses: of.addresses(),
    ...(code ? { code: { code: code.code, url: `http://${host}/`, forSeconds: left, job: code.job } } : {}),
    joined: of.joining.joined().map((s) => ({ id: s.id, device: s.device, job: s.job, since: new Date(s.sinceMs).toISOString() })),
  };
}
/** The address that devices join at: the one asked for among this machine's, else its first. */
function addressOf(of: DoorOf, said: string): string {
  const addresses = of.addresses();
  const address = said === "" ? addresses[0] : addresses.find((a) => a === said);
  if (address !== undefined) return address;
  const expected = "this machine to be on a house network, by wire or wireless";
  throw new InputError([{ path: "address", code: "no-house-network", read: said, expected }]);
}

/** Opens, watches and shuts the listener of the house network. */
export function doorOf(of: DoorOf): Door {
  const insides = new Map<string, Hono>();
  /** who holds a session's secret is let in to what it is served; anybody else stands at the door */
  const house = listener((request) => {
    const session = of.joining.bySecret(firstOf(request));
    return ((session && insides.get(session.id)) ?? door).fetch(request);
  });
  const hosts = (): readonly string[] => (house.host() === "" ? [] : [house.host()]);
  const door = doorApp(of, hosts, (s) => void insides.set(s.id, of.inside(s, hosts)));
  const shutIfIdle = async (): Promise<void> => {
    if (!of.joining.standing() && of.joining.joined().length === 0) await house.shut();
  };
  return {
    state: () => stateOf(of, house.host()),
    open: async (job, said) => {
      const address = addressOf(of, said);
      const { untilMs } = of.joining.open(job);
      // nobody is moved to another network while he is joined
      if (!house.host().startsWith(`${address}:`) && of.joining.joined().length === 0) await house.shut();
      await house.open(address);
      setTimeout(() => void shutIfIdle(), Math.max(0, untilMs - of.nowMs()) + 50).unref();
      return stateOf(of, house.host());
    },
    sendAway: async (id) => {
      if (!of.joining.sendAway(id))
        throw new InputError([{ path: "device", code: "not-joined", read: id, expected: "a device that is joined" }]);
      insides.delete(id);
      await shutIfIdle();
      return stateOf(of, house.host());
    },
    close: house.shut,
  };
}

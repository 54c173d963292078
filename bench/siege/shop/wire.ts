/** Requests over plain sockets that are kept: a client that costs little beside the server that is asked, and takes nothing for granted of what comes back. */
import { connect, type Socket } from "node:net";

export interface Wired {
  readonly method: string;
  readonly path: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
}
/** Status 0 is no answer: cut off, none within its time, or none that can be read. */
export interface Came {
  readonly status: number;
  readonly cookie: string;
}
const longestMs = 120_000;
const none: Came = { status: 0, cookie: "" };

/** How much of some bytes is an answer, by its heads; undefined while more is to come. */
function endOf(bytes: Buffer): { readonly end: number; readonly head: string } | undefined {
  const at = bytes.indexOf("\r\n\r\n");
  if (at < 0) return undefined;
  const head = bytes.toString("latin1", 0, at);
  const from = at + 4;
  const said = /\r\ncontent-length: *(\d+)/i.exec(head);
  if (said) return bytes.length >= from + Number(said[1]) ? { end: from + Number(said[1]), head } : undefined;
  if (!/\r\ntransfer-encoding: *chunked/i.test(head)) return { end: from, head };
  for (let p = from; ; ) {
    const line = bytes.indexOf("\r\n", p);
    if (line < 0) return undefined;
    const size = Number.parseInt(bytes.toString("latin1", p, line), 16);
    p = line + 2 + size + 2;
    if (!(size >= 0) || p > bytes.length) return undefined;
    if (size === 0) return { end: p, head };
  }
}
const asBytes = ({ method, path, headers, body }: Wired, host: string): string => {
  const heads = Object.entries({
    host,
    ...headers,
    ...(method === "GET" ? {} : { "content-length": String(Buffer.byteLength(body)) }),
  });
  return `${method} ${path} HTTP/1.1\r\n${heads.map(([k, v]) => `${k}: ${v}\r\n`).join("")}\r\n${method === "GET" ? "" : body}`;
};

/** One hand at a server: it asks one thing after the other over one socket, and takes another where that is shut. */
export function wire(port: number, host: string): { readonly ask: (w: Wired) => Promise<Came>; readonly shut: () => void } {
  let socket: Socket | undefined;
  let had: Buffer[] = [];
  let done: ((came: Came) => void) | undefined;
  const finish = (came: Came): void => {
    const tell = done;
    [done, had] = [undefined, []];
    tell?.(came);
  };
  const heard = (s: Socket, data: Buffer): void => {
    had.push(data);
    const all = had.length === 1 ? data : Buffer.concat(had);
    had = [all];
    const whole = endOf(all);
    if (!whole) return;
    if (/\r\nconnection: *close/i.test(whole.head)) s.destroy();
    const cookie = /\r\nset-cookie: *([^;\r]*)/i.exec(whole.head)?.[1] ?? "";
    finish({ status: Number(/^HTTP\/1\.1 (\d{3})/.exec(whole.head)?.[1] ?? 0), cookie });
  };
  const opened = (): Socket => {
    const s = connect({ host: "127.0.0.1", port, noDelay: true });
    s.on("data", (d) => heard(s, d));
    s.on("error", () => s.destroy()).on("timeout", () => s.destroy());
    s.on("close", () => {
      if (socket === s) socket = undefined;
      if (done) finish(none);
    });
    s.setTimeout(longestMs);
    return s;
  };
  const once = (text: string): Promise<Came> =>
    new Promise((tell) => {
      if (!socket || socket.destroyed) socket = opened();
      done = tell;
      socket.write(text);
    });
  return {
    ask: async (w) => {
      const [text, isKept] = [asBytes(w, host), socket !== undefined && !socket.destroyed];
      const came = await once(text);
      // a socket that was kept may be shut by the server at this very moment: one more try, on a new one
      return came.status === 0 && isKept ? once(text) : came;
    },
    shut: () => socket?.destroy(),
  };
}

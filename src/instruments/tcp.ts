import { connect } from "node:net";
import { bad, good, type Read } from "../units/issue";
import type { OpenTransport } from "./wire";

/** Port of instruments that speak over a plain socket. Source: a public library's documentation names it as one maker's own (read). */
export const usualPort = 5025;

export interface NetAddress {
  readonly host: string;
  readonly port: number;
}
/**
 * Where an instrument is on the network: 192.168.1.30, bench-meter.local:5025, [fe80::1]:5025.
 *
 * @param text as typed
 * @param path of the field, for the issue
 * @returns host and port, or the located issue
 */
export function readAddress(text: string, path: string): Read<NetAddress> {
  const m = /^(?:\[([0-9a-f:.%\w]+)\]|([\w.-]+))(?::(\d{1,5}))?$/i.exec(text.trim());
  const port = m?.[3] === undefined ? usualPort : Number(m[3]);
  if (!m || port < 1 || port > 65535)
    return bad(path, "no-address", text, `an address with or without a port, such as 192.168.1.30 or 192.168.1.30:${usualPort}`);
  return good({ host: m[1] ?? m[2], port });
}

const whyNot: Readonly<Record<string, string>> = {
  ECONNREFUSED: "nothing listens there: is it on, and its socket server too?",
  ENOTFOUND: "no such name on this network",
  EHOSTUNREACH: "it can't be reached from this network",
  ENETUNREACH: "this machine is on no network",
  ETIMEDOUT: "it did not answer",
};

/**
 * A lead over the network.
 *
 * @param at address
 * @param patienceMs how long it may take to answer the call
 */
export const overTcp =
  ({ host, port }: NetAddress, patienceMs: number): OpenTransport =>
  (hears) =>
    new Promise((opened, failed) => {
      const socket = connect({ host, port, noDelay: true });
      const late = setTimeout(() => socket.destroy(Object.assign(new Error(), { code: "ETIMEDOUT" })), patienceMs);
      let why = "";
      socket.on("data", (b) => hears.bytes(b));
      socket.on("error", (e: Error & { readonly code?: string }) => {
        clearTimeout(late);
        why = whyNot[e.code ?? ""] ?? e.code ?? e.message;
        failed(new Error(`${host}:${port}: ${why}`));
      });
      socket.on("close", () => hears.ended(why || "it closed the link"));
      socket.once("connect", () => {
        clearTimeout(late);
        opened({
          write: (bytes) =>
            new Promise(
              (done, refused) =>
                void socket.write(bytes, (e) =>
                  e ? refused(new Error(whyNot[(e as { code?: string }).code ?? ""] ?? e.message)) : done(),
                ),
            ),
          close: () =>
            new Promise((done) => {
              if (socket.destroyed) return done();
              socket.once("close", () => done());
              socket.destroy();
            }),
        });
      });
    });

import { readFileSync } from "node:fs";
import { isIP } from "node:net";
import { InputError } from "../../../units/issue";

/** How a shop is to be served, as it was said. */
export interface ServeSaid {
  readonly host: string;
  readonly port: number;
  readonly certificate?: string | undefined;
  readonly key?: string | undefined;
  readonly proxy?: string | undefined;
  readonly proxyFrom?: string | undefined;
  readonly names: readonly string[];
}
/** How it will be. */
export interface Plan {
  readonly host: string;
  readonly port: number;
  readonly tls?: { readonly cert: Buffer; readonly key: Buffer };
  /** addresses that requests may come from, where a proxy does TLS: what it says of a sender is believed, and nobody else is heard */
  readonly proxies?: readonly string[];
  /** `host:port` names that browsers know it by, once it listens at a port; the first is its own */
  readonly names: (port: number) => readonly string[];
}

const no = (path: string, code: string, read: string, expected: string): InputError => new InputError([{ path, code, read, expected }]);
const isLoopback = (host: string): boolean => host === "localhost" || host === "::1" || (isIP(host) === 4 && host.startsWith("127."));
const isHost = (name: string): boolean => isIP(name) !== 0 || /^[a-z\d]([a-z\d-]{0,62}\.?)*$/i.test(name);
const bracketed = (host: string): string => (isIP(host) === 6 ? `[${host}]` : host);
const withPort = (host: string, port: number): string => (port === 443 ? bracketed(host) : `${bracketed(host)}:${port}`);

function fileFor(option: string, path: string): Buffer {
  try {
    return readFileSync(path);
  } catch {
    throw no(option, "no-file", path, "a file that can be read");
  }
}
/** Where a proxy of one's own stands. */
function proxied({ proxy, proxyFrom, host }: ServeSaid): Pick<Plan, "proxies"> & { readonly name: string } {
  const said = proxy ?? "";
  const url = URL.canParse(said) ? new URL(said) : undefined;
  if (url?.protocol !== "https:" || url.pathname !== "/" || url.search !== "" || url.username !== "")
    throw no("--proxy", "not-https", said, "the https address that browsers know your proxy by, such as https://shop.example");
  if (!isLoopback(host) && proxyFrom === undefined)
    throw no(
      "--proxy-from",
      "no-proxy",
      "",
      "the address that your proxy asks from, since it is not on this machine: nobody else is heard then",
    );
  if (proxyFrom !== undefined && isIP(proxyFrom) === 0)
    throw no("--proxy-from", "not-an-address", proxyFrom, "an address such as 192.168.1.2");
  return { proxies: proxyFrom === undefined ? ["127.0.0.1", "::1"] : [proxyFrom], name: url.host };
}

/**
 * How a shop will be served: never off this machine but over TLS, by a certificate or by a proxy that is named.
 *
 * @throws {InputError} that names the option
 */
export function planOf(said: ServeSaid): Plan {
  const { host, port, certificate, key, proxy, proxyFrom, names } = said;
  if (!isHost(host)) throw no("--host", "not-an-address", host, "an address of this machine, such as 192.168.1.10");
  const odd = names.find((n) => !isHost(n));
  if (odd !== undefined) throw no("--name", "not-a-name", odd, "a name or address that browsers know this machine by, such as shop.lan");
  if (proxy !== undefined && (certificate !== undefined || key !== undefined))
    throw no("--proxy", "both", proxy, "one of the two: a proxy that does TLS, or --certificate and --key");
  if (proxy === undefined && proxyFrom !== undefined) throw no("--proxy-from", "no-proxy", proxyFrom, "--proxy with it");
  if (proxy !== undefined) {
    const { proxies, name } = proxied(said);
    return { host, port, ...(proxies ? { proxies } : {}), names: () => [name, ...names] };
  }
  if (certificate === undefined || key === undefined)
    throw no(
      certificate === undefined ? "--certificate" : "--key",
      "in-clear",
      "",
      "TLS, since passwords pass: --certificate and --key, or --proxy with the https address of a proxy of your own. Nothing was opened. For this machine alone: fettle open",
    );
  const any = host === "0.0.0.0" || host === "::";
  if (any && names.length === 0)
    throw no("--name", "no-name", "", `the name or address that browsers know this machine by, since ${host} is none`);
  return {
    host,
    port,
    tls: { cert: fileFor("--certificate", certificate), key: fileFor("--key", key) },
    names: (at) => [...(any ? [] : [host]), ...names].map((n) => withPort(n, at)),
  };
}

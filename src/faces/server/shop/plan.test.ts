/** How a shop may be served: never off this machine but over TLS. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Hono } from "hono";
import { afterAll, describe, expect, it } from "vitest";
import { InputError } from "../../../units/issue";
import { planOf, type ServeSaid } from "./plan";
import { type Bound, heardBy, senderOf } from "./start-shop";

const folder = mkdtempSync(join(tmpdir(), "plan-"));
const [certificate, key] = ["shop.crt", "shop.key"].map((f) => join(folder, f));
for (const f of [certificate, key]) writeFileSync(f, "pem");
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const usual: ServeSaid = { host: "127.0.0.1", port: 8443, names: [] };
function blamed(said: Partial<ServeSaid>): string {
  try {
    planOf({ ...usual, ...said });
  } catch (e) {
    if (e instanceof InputError) return e.issues[0].path;
    throw e;
  }
  return "taken";
}

describe("a shop", () => {
  it("is never served in the clear, whatever the address", () => {
    for (const host of ["127.0.0.1", "192.168.1.10", "0.0.0.0", "::", "localhost"]) {
      expect(blamed({ host, names: ["shop.lan"] }), host).toBe("--certificate");
      expect(blamed({ host, names: ["shop.lan"], certificate }), host).toBe("--key");
      expect(blamed({ host, names: ["shop.lan"], key }), host).toBe("--certificate");
      expect(blamed({ host, names: ["shop.lan"], proxy: "http://shop.example" }), host).toBe("--proxy");
    }
  });
  it("is served by a certificate, known by its address and the names that are given", () => {
    const plan = planOf({ ...usual, host: "192.168.1.10", certificate, key, names: ["shop.lan"] });
    expect(plan.tls?.cert.toString()).toBe("pem");
    expect(plan.names(8443)).toEqual(["192.168.1.10:8443", "shop.lan:8443"]);
    expect(plan.names(443)).toEqual(["192.168.1.10", "shop.lan"]);
    expect(planOf({ ...usual, host: "::1", certificate, key }).names(8443)).toEqual(["[::1]:8443"]);
    expect(planOf({ ...usual, host: "0.0.0.0", certificate, key, names: ["shop.lan"] }).names(8443)).toEqual(["shop.lan:8443"]);
    expect(blamed({ host: "0.0.0.0", certificate, key })).toBe("--name");
    expect(blamed({ certificate: join(folder, "none"), key })).toBe("--certificate");
    expect(blamed({ host: "a b", certificate, key })).toBe("--host");
    expect(blamed({ names: ["evil/../x"], certificate, key })).toBe("--name");
  });
  it("stands behind a proxy that is named, and is known by the proxy's address alone", () => {
    const plan = planOf({ ...usual, proxy: "https://shop.example" });
    expect([plan.tls, plan.proxies, plan.names(8443)]).toEqual([undefined, ["127.0.0.1", "::1"], ["shop.example"]]);
    expect(blamed({ host: "192.168.1.10", proxy: "https://shop.example" })).toBe("--proxy-from");
    expect(planOf({ ...usual, host: "192.168.1.10", proxy: "https://shop.example", proxyFrom: "192.168.1.2" }).proxies).toEqual([
      "192.168.1.2",
    ]);
    expect(blamed({ proxy: "https://shop.example", certificate, key })).toBe("--proxy");
    expect(blamed({ proxy: "https://u:p@shop.example" })).toBe("--proxy");
    expect(blamed({ proxy: "https://shop.example/x" })).toBe("--proxy");
    expect(blamed({ proxy: "https://shop.example", proxyFrom: "shop" })).toBe("--proxy-from");
    expect(blamed({ proxyFrom: "127.0.0.1", certificate, key })).toBe("--proxy-from");
  });
});

describe("what a request says of its sender", () => {
  const said = async (proxies: readonly string[] | undefined, remoteAddress: string, forwarded: string) => {
    const app = new Hono<{ Bindings: Bound }>();
    const from = senderOf(proxies);
    app.get("/", (c) => c.text(from(c)));
    const r = await heardBy(app, proxies)(new Request("http://x/", { headers: { "x-forwarded-for": forwarded } }), {
      incoming: { socket: { remoteAddress } },
    });
    return r.status === 200 ? r.text() : r.status;
  };
  it("counts for nothing without a proxy, and is heard from the proxy alone", async () => {
    expect(await said(undefined, "10.0.0.7", "1.2.3.4")).toBe("10.0.0.7");
    expect(await said(["127.0.0.1"], "127.0.0.1", "6.6.6.6, 10.0.0.7")).toBe("10.0.0.7");
    expect(await said(["127.0.0.1"], "::ffff:127.0.0.1", "10.0.0.7")).toBe("10.0.0.7");
    expect(await said(["127.0.0.1"], "127.0.0.1", "")).toBe("127.0.0.1");
    expect(await said(["127.0.0.1"], "10.0.0.8", "10.0.0.7")).toBe(403);
  });
});

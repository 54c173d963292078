/** A bench's way to the shop, encrypted as docs/shop.md says: the server's own certificate is trusted, and no other. */
import { execFileSync } from "node:child_process";
import { chmodSync, chownSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openHome } from "./home";
import { type Shop, serverPrograms, startShop } from "./shop.testdata";

const written = readFileSync(join(import.meta.dirname, "..", "..", "docs", "shop.md"), "utf8");
const folder = mkdtempSync(join(tmpdir(), "encrypted-"));
const server = process.getuid?.() === 0 ? ["-u", "-g"].map((f) => Number(execFileSync("id", [f, "postgres"]))) : [];
/** A certificate as docs/shop.md makes it, for an address. */
function certificate(name: string, address: string): { readonly crt: string; readonly key: string } {
  const [crt, key] = [join(folder, `${name}.crt`), join(folder, `${name}.key`)];
  const line = /^openssl (req .*?) \\\n\s+(.*)$/m.exec(written);
  const words = `${line?.[1]} ${line?.[2]}`
    .replaceAll("192.168.1.10", address)
    .replace(/\S*shop\.crt/, crt)
    .replace(/\S*shop\.key/, key);
  execFileSync("openssl", words.split(" "), { stdio: "ignore" });
  chmodSync(key, 0o600);
  if (server.length === 2) chownSync(key, server[0], server[1]);
  return { crt, key };
}
/** What docs/shop.md puts behind the address, with a certificate of these tests. */
const asked = (crt: string): string => (/\/fettle(\?sslmode=\S+?)'/.exec(written)?.[1] ?? "").replace(/(?<=sslrootcert=)[^&]+/, crt);

let [shop, plain]: (Shop | undefined)[] = [];
let its: { readonly crt: string; readonly key: string };
const skip = serverPrograms === undefined;
beforeAll(async () => {
  if (skip) return;
  chmodSync(folder, 0o755);
  its = certificate("its", "127.0.0.1");
  shop = await startShop({ ssl: "on", ssl_cert_file: its.crt, ssl_key_file: its.key });
  plain = await startShop();
});
afterAll(async () => {
  await shop?.end();
  await plain?.end();
  rmSync(folder, { recursive: true, force: true });
});
const opened = async (on: Shop | undefined, crt: string) => {
  const url = `${await on!.database()}${asked(crt)}`;
  const store = await openHome({ kind: "shop", url });
  await store.close();
  return url;
};

describe.skipIf(skip)("the encrypted way to a shop (skipped where PostgreSQL is not installed)", () => {
  it("is what the page on shops asks for, by the server's own certificate", async () => {
    expect(asked(its.crt)).toBe(`?sslmode=verify-full&sslrootcert=${its.crt}`);
    await expect(opened(shop, its.crt)).resolves.toContain("verify-full");
  });
  it("is refused in words where the certificate is another's, is made for another address, or is not there", async () => {
    await expect(opened(shop, certificate("another", "127.0.0.1").crt)).rejects.toMatchObject({
      code: "failing",
      message: expect.stringContaining("showed a certificate that this bench can't trust"),
    });
    const url = `${await shop!.database()}${asked(its.crt)}`.replace("127.0.0.1", "localhost");
    await expect(openHome({ kind: "shop", url })).rejects.toThrow("made for the address that stands there");
    await expect(opened(shop, join(folder, "none.crt"))).rejects.toThrow("names as sslrootcert can't be read");
  });
  it("is refused where the server does not encrypt", async () => {
    await expect(opened(plain, its.crt)).rejects.toThrow("does not encrypt");
  });
});

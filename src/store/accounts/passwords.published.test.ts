/** Passwords' hashing against its standard. */
import { describe, expect, it } from "vitest";
import { passwords } from "./passwords";

const b64 = (bytes: Buffer | string): string => Buffer.from(bytes).toString("base64").replace(/=+$/, "");
describe("scrypt as it is stored", () => {
  // Source: RFC 7914, section 12, second and third test vector
  it.each([
    {
      password: "password",
      salt: "NaCl",
      cost: "ln=10,r=8,p=16",
      key: "fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b3731622eaf30d92e22a3886ff109279d9830dac727afb94a83ee6d8360cbdfa2cc0640",
    },
    {
      password: "pleaseletmein",
      salt: "SodiumChloride",
      cost: "ln=14,r=8,p=1",
      key: "7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887",
    },
  ])("$password with $cost", async ({ password, salt, cost, key }) => {
    const stored = `$scrypt$${cost}$${b64(salt)}$${b64(Buffer.from(key, "hex"))}`;
    expect(await passwords().fits(password, stored)).toBe(true);
    expect(await passwords().fits(`${password}x`, stored)).toBe(false);
  });
  it("costs what it is meant to, under a salt of its own each time", async () => {
    const { hash, fits } = passwords();
    const [a, b] = await Promise.all([hash("four old brass knobs"), hash("four old brass knobs")]);
    expect(a).toMatch(/^\$scrypt\$ln=17,r=8,p=1\$[\w+/]{22}\$[\w+/]{43}$/);
    expect(a).not.toBe(b);
    expect(await fits("four old brass knobs", a)).toBe(true);
    expect(await fits("four old brass knobs", null)).toBe(false);
  });
});

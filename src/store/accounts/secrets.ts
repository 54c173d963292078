import { createHash, randomBytes, randomInt } from "node:crypto";

/** 256 bits that nobody can guess, as they stand in a cookie or an address. */
export const newSecret = (): string => randomBytes(32).toString("base64url");

const letters = "23456789ABCDEFGHJKMNPQRSTVWXYZ";
const groups = 5;
/** A code that is read off a screen and typed: 25 letters and digits that can't be mistaken for each other, 122 bits. */
export const newCode = (): string =>
  Array.from({ length: groups }, () => Array.from({ length: 5 }, () => letters[randomInt(letters.length)]).join("")).join("-");
/** A code as typed: its letters and digits, whatever stands between them. */
export const asTyped = (code: string): string => code.toUpperCase().replace(/[^A-Z0-9]/g, "");

/**
 * What is kept of a secret that was drawn at random: it needs no slow hash, since nobody can try so many.
 *
 * @returns SHA-256 as 64 hexadecimal digits. Source: FIPS 180-4, by Node.js
 */
export const digestOf = (secret: string): string => createHash("sha256").update(secret).digest("hex");

import { expect, it } from "vitest";
import { WireError } from "../instruments/wire";
import { StoreError } from "../store/store";
import { InputError } from "../units/issue";
import { tell } from "./tell";

const coded = (code: string) => Object.assign(new Error(`${code}: at /some/place`), { code });
it.each([
  [new InputError([{ path: "f", code: "c", read: "x", expected: "y" }]), "input", 400, 'f: read "x", expected y'],
  [new StoreError("full", "the disk is full"), "store", 507, "the disk is full"],
  [new StoreError("no-job", "no such job"), "store", 404, "no such job"],
  [new WireError("lost", "voltmeter: the link was lost"), "instrument", 503, "voltmeter: the link was lost; expected an instrument"],
  [coded("ENOSPC"), "machine", 507, "room on the disk"],
  [coded("SQLITE_FULL"), "machine", 507, "room on the disk"],
  [coded("SQLITE_IOERR_WRITE"), "machine", 503, "a disk that can be read and written"],
  [coded("EIO"), "machine", 503, "a disk that can be read and written"],
  [coded("SQLITE_BUSY_SNAPSHOT"), "machine", 503, "the store to be free"],
  [coded("EACCES"), "machine", 503, "may be read and written"],
  [coded("ERR_WORKER_OUT_OF_MEMORY"), "machine", 503, "more memory than"],
  [new RangeError("Array buffer allocation failed"), "machine", 503, "more memory than"],
  [new TypeError("x is not\n  a function"), "defect", 500, "A fault in Fettle itself, please report it: TypeError: x is not a function"],
  ["thrown as a word", "defect", 500, "thrown as a word"],
])("%s is told as %s", (error, kind, status, words) => {
  const told = tell(error);
  expect([told.kind, told.status]).toEqual([kind, status]);
  expect(told.lines).toContain(words);
  expect(told.lines).not.toMatch(/\n\s*at /);
  expect(told.issues.length).toBeGreaterThan(0);
});

import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { readArchive } from "./archive";
import { unpack } from "./unpack";

const issueOf = (bytes: Uint8Array) => {
  const r = unpack(bytes, "j.zip");
  return r.ok ? { code: "read", parts: Object.keys(r.value) } : r.issues[0];
};
/** A zip whose directory claims another size for its first file. */
function claiming(zip: Uint8Array, size: number): Uint8Array {
  const out = zip.slice();
  const view = new DataView(out.buffer);
  const directory = view.getUint32(out.length - 22 + 16, true);
  view.setUint32(directory + 24, size, true);
  return out;
}

describe("a job's zip", () => {
  it("is refused by the number of its files, however small and empty", () => {
    const many = zipSync(Object.fromEntries(Array.from({ length: 20_001 }, (_, i) => [`files/${i}`, new Uint8Array()])), { level: 0 });
    expect(issueOf(many)).toMatchObject({ path: "j.zip", code: "too-large", read: "more than 20000 files" });
  });
  it("is refused by the sizes that it claims, before any is unpacked", () => {
    const zip = zipSync({ "files/a": strToU8("a".repeat(5000)) });
    expect(issueOf(claiming(zip, 300 * 1024 * 1024))).toMatchObject({
      code: "too-large",
      expected: "files as large as their packing allows",
    });
    const large = zipSync({ "files/a": new Uint8Array(300_000) }, { level: 0 });
    expect(issueOf(claiming(large, 257 * 1024 * 1024))).toMatchObject({ code: "too-large", expected: "files of at most 256 MB each" });
  });
  it("gives only what is a job's: the rest stays packed", () => {
    const parts = ["job.json", "files.json", "readings/a.csv", "files/a", "nested.zip", "../up", "deep/er/x"];
    expect(issueOf(zipSync(Object.fromEntries(parts.map((p) => [p, strToU8("x")]))))).toMatchObject({ parts: parts.slice(0, 4) });
  });
  it("is no zip where it is cut, and no job where its JSON is nested without end", () => {
    const deep = zipSync({ "job.json": strToU8(`{"set":${"[".repeat(5000)}${"]".repeat(5000)}}`) });
    expect(issueOf(deep.subarray(0, deep.length - 30))).toMatchObject({ code: "not-a-zip" });
    const r = readArchive(deep, "j.zip");
    expect(r.ok ? "" : r.issues[0]).toMatchObject({ path: "j.zip job.json", code: "too-deep" });
  });
});

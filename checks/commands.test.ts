/** House rules of commands and faces: a command is declared once, under src/desk/commands, and every way in derives from it. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { commands } from "../src/desk/commands/index";
import { isOption } from "../src/faces/cli/line";
import { lines } from "../src/faces/cli/lines";
import { serve } from "../src/faces/server/app";
import { sheets } from "../src/sheets/index";
import { saidIn } from "./said";

const root = join(import.meta.dirname, "..");
const sourcesIn = (folder: string): readonly (readonly [string, string])[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((f) => /\.tsx?$/.test(f) && !/\.(test|testdata|testscript)\.tsx?$/.test(f))
    .map((f) => [`${folder}/${f}`, readFileSync(join(root, folder, f), "utf8")]);
const lineOf = (text: string, at: number): number => text.slice(0, at).split("\n").length;
const found = (folder: string, what: RegExp): string[] =>
  sourcesIn(folder).flatMap(([f, text]) => [...text.matchAll(what)].map((m) => `${f}:${lineOf(text, m.index)} ${m[0]}`));

/** Routes that are no command: what the server remembers or tells by itself. None is added. */
const ownRoutes = ["POST /api/states", "GET /api/events"];

describe("a command", () => {
  it("is declared in one file of its own name, and stands in the index", () => {
    const files = readdirSync(join(root, "src/desk/commands")).map((f) => f.replace(/\.ts$/, ""));
    expect(commands.map((c) => c.name).sort()).toEqual(files.filter((f) => f !== "index").sort());
    expect(new Set(commands.map((c) => c.name)).size).toBe(commands.length);
  });
  it("is typed by the name that it declares, or has a route; with an example where it is typed", async () => {
    for (const [name, load] of Object.entries(lines)) expect((await load()).command.name).toBe(name);
    for (const c of commands) {
      expect(c.name in lines || c.served.length > 0, c.name).toBe(true);
      expect(c.example?.startsWith(`fettle ${c.name}`) ?? false, c.name).toBe(c.name in lines);
    }
  });
  it("has an example with its own options, and words for each field", async () => {
    for (const load of Object.values(lines)) {
      const { name, example, fields } = (await load()).command;
      const own = fields.filter(isOption).flatMap((f) => f.usage?.match(/-[-\w]+/g) ?? []);
      const typed = example?.replace(/"[^"]*"/g, '""').match(/(?<=\s)-[-\w]+/g) ?? [];
      expect(
        typed.filter((o) => !own.includes(o)),
        name,
      ).toEqual([]);
      expect(
        fields.filter((f) => f.usage !== undefined && f.says === "").map((f) => f.name),
        name,
      ).toEqual([]);
    }
  });
  it("is declared nowhere a second time: no face has options, a check of a body or a route of its own", () => {
    expect(
      found("src/faces/cli", /\.(?:option|requiredOption|argument|command)\(/g).filter((f) => !f.startsWith("src/faces/cli/line.ts")),
    ).toEqual([]);
    expect(found("src/faces/cli", /\bz\.\w+\(/g)).toEqual([]);
    const stated = found("src/faces/server", /\bz\.\w+\(/g).filter((f) => !f.startsWith("src/faces/server/states.ts"));
    expect(stated).toEqual([]);
  });
  it("has every route of the server, but for those named", () => {
    const never = () => {
      throw new Error("no request is made");
    };
    const app = serve({ page: root, hosts: () => [], secret: "s", desk: never });
    const routes = app.routes.filter((r) => r.path.startsWith("/api/") && r.method !== "ALL").map((r) => `${r.method} ${r.path}`);
    const declared = commands.flatMap((c) => c.served.map((r) => `${r.method} ${r.path}`));
    expect([...new Set(routes)].filter((r) => !declared.includes(r)).sort()).toEqual([...ownRoutes].sort());
    expect(new Set(declared).size).toBe(declared.length);
  });
});

/** What names of questions also are: a kind of reading, of fitting or of stage, a page, a list on it, the mark of a step. */
describe("a command that a text tells a person to type", () => {
  it("has the options that are told", async () => {
    const options = new Map<string, string[]>();
    for (const [name, load] of Object.entries(lines))
      options.set(name, [...(await load()).command.fields.filter(isOption).flatMap((f) => f.usage?.match(/--[\w-]+/g) ?? []), "--help"]);
    const told = sourcesIn("src")
      // a text without an option tells none
      .filter(([, text]) => /--[a-z]/.test(text))
      .flatMap(([f, text]) => saidIn(f, text))
      .flatMap(({ at, text }) =>
        [...text.matchAll(/(^|\bfettle )([a-z][a-z-]*) ([^;()`]*)/g)].flatMap(([, by, name, rest]) =>
          options.has(name) && (by !== "" || rest.includes("JOB"))
            ? (rest.match(/--[a-z][\w-]*/g) ?? []).map((o) => ({ at, name, o }))
            : [],
        ),
      );
    expect(told.length).toBeGreaterThan(20);
    expect(told.filter(({ name, o }) => !options.get(name)?.includes(o)).map(({ at, name, o }) => `${at}: ${name} ${o}`)).toEqual([]);
  });
});

const alsoMeans = ["dial", "converter", "set-points", "bfo", "safety", "coil"];

describe("faces", () => {
  it("know no question by name: what they know of one stands in src/desk/questions.ts", () => {
    const ids = sheets.map((s) => s.id).filter((id) => !alsoMeans.includes(id));
    const known = sourcesIn("src/faces").flatMap(([f, text]) => {
      const out: string[] = [];
      const walk = (n: ts.Node): void => {
        if (ts.isStringLiteralLike(n) && (ids.includes(n.text) || /sheets\/(?!(?:index|asked|question|finding)$|inputs\/)/.test(n.text)))
          out.push(`${f}: ${n.text}`);
        if (ts.isBinaryExpression(n) && /\bsheet\.id$/i.test(n.left.getText()) && ts.isStringLiteralLike(n.right))
          out.push(`${f}: ${n.getText()}`);
        ts.forEachChild(n, walk);
      };
      walk(ts.createSourceFile(f, text, ts.ScriptTarget.Latest, true, f.endsWith("x") ? ts.ScriptKind.TSX : ts.ScriptKind.TS));
      return out;
    });
    expect(known).toEqual([]);
  });
});

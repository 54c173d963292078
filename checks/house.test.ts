/** House rules as tests, each with a message that says what to do instead. */
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { formatVersion } from "../src/job/format";
import { sheets } from "../src/sheets/index";
import { order } from "../src/sheets/order";
import { keptIn } from "./kept";
import { saidIn } from "./said";
import { tooLargeIn } from "./sizes";
import { sourcelessIn } from "./sourceless";
import { documents, made, renewed, tables } from "./tables";
import { tooLarge, tooLargeMost } from "./too-large";
import { forbidden, leaning, meanings, misused, senses, unsaid, waysThatLean, waysToMeasure } from "./words";

const root = join(import.meta.dirname, "..");
const tracked = execFileSync("git", ["ls-files"], { cwd: root, encoding: "utf8" })
  .split("\n")
  .filter((f) => f !== "" && existsSync(join(root, f)));
const text = (f: string): string => readFileSync(join(root, f), "utf8");
const isTest = (f: string): boolean => /\.(test|testdata|testscript)\.ts$/.test(f);
/** The floor that a file stands on, and its room there; the questions of floor 4 are rooms by their own declaration. */
const roomsOf = (f: string): string[] => {
  const [, floor, room] = /^src\/([\w-]+)\/(?:([\w-]+)\/)?/.exec(f) ?? [];
  if (!floor) return [];
  return [`src/${floor}`, ...(room && floor !== "sheets" ? [`src/${floor}/${room}`] : [])];
};
const core = tracked.filter(
  (f) => /^src\/(numerics|units|physics|readings|standards|set|ask|infer|invented|sheets|job)\/.*\.ts$/.test(f) && !isTest(f),
);

describe("floors 0 to 5", () => {
  it("know no clock, no console, no process and no ambient dice: pass them in", () => {
    const bad = core.flatMap((f) =>
      text(f)
        .split("\n")
        .flatMap((l, i) => (/\bDate\.now|new Date\b|Math\.random|\bconsole\.|\bprocess\./.test(l) ? [`${f}:${i + 1}`] : [])),
    );
    expect(bad).toEqual([]);
  });
  it("say the source of every public function", () => {
    expect(
      core.flatMap((f) => sourcelessIn(text(f)).map((name) => `${f}: ${name}`)),
      "add a docstring with @source: where the law or the rule is from",
    ).toEqual([]);
  });
});

describe("what is built", () => {
  it("is known by the search for dead code, each entry of a bundle", () => {
    const { entry } = JSON.parse(text("knip.json")) as { readonly entry: readonly string[] };
    const built = [...text("build.mjs").matchAll(/"(src\/[^"]+\.tsx?)"/g)].map((m) => m[1]);
    expect(built.length).toBeGreaterThan(5);
    expect(
      built.filter((f) => !entry.includes(f)),
      "name it among the entries of knip.json",
    ).toEqual([]);
  });
});

describe("searches", () => {
  it("halve by areApart, which ends wherever the bracket lies", () => {
    const bad = core.flatMap((f) =>
      text(f)
        .split("\n")
        .flatMap((l, i) => (/while \(\w+ - \w+ > /.test(l) ? [`${f}:${i + 1}`] : [])),
    );
    expect(bad, "while (areApart(low, high, least)), of src/numerics/apart.ts").toEqual([]);
  });
});

describe("sizes", () => {
  const own = tracked.filter((f) => /^src\/.*\.tsx?$/.test(f) && !isTest(f));
  const found = tooLargeIn(root, own);
  it("files of at most 250 lines, functions of 60, 5 parameters, but for those named in too-large.ts", () => {
    expect(
      found.filter((x) => !tooLarge.includes(x)),
      "split it by idea",
    ).toEqual([]);
  });
  it("the list of what is too large only shrinks", () => {
    expect(
      tooLarge.filter((x) => !found.includes(x)),
      "take these off the list",
    ).toEqual([]);
    expect(tooLarge.length).toBeLessThanOrEqual(tooLargeMost);
  });
});

describe("types", () => {
  const own = tracked.filter((f) => /^src\/.*\.tsx?$/.test(f) && !isTest(f));
  it("are forced in two places, each with a comment on the line before that says why", () => {
    const forced = own.flatMap((f) => {
      const lines = text(f).split("\n");
      return lines.flatMap((l, i) => (/\bas (?:never|unknown as)\b/.test(l) ? [{ at: `${f}:${i + 1}`, why: lines[i - 1].trim() }] : []));
    });
    expect(
      forced.filter((c) => !c.why.startsWith("//")).map((c) => c.at),
      "a better type, or a comment that says why none does",
    ).toEqual([]);
    expect(forced.length, "a better type").toBeLessThanOrEqual(2);
  });
  it("nothing is kept from one answer to the next: no let, and no map or list that is written to, outside every function of ask, infer and sheets", () => {
    const asking = core.filter((f) => /^src\/(ask|infer|sheets)\//.test(f));
    expect(asking.length).toBeGreaterThan(200);
    expect(asking.flatMap((f) => keptIn(join(root, f)).map((k) => `${f}: ${k}`))).toEqual([]);
  });
});

describe("sentences", () => {
  it("begin and end by one hand, src/units/sentence.ts", () => {
    const own = tracked.filter((f) => /^src\/.*\.tsx?$/.test(f) && f !== "src/units/sentence.ts");
    expect(
      own.filter((f) => /\.(?:charAt\(0\)|slice\(0, 1\))\.to(?:Upper|Lower)Case\(\)|\[0\]\.to(?:Upper|Lower)Case\(\)/.test(text(f))),
    ).toEqual([]);
  });
  it("write days and moments by one hand, src/units/day.ts: nobody reads a day as a program writes it", () => {
    const own = tracked.filter((f) => /^src\/.*\.tsx?$/.test(f) && f !== "src/units/day.ts");
    const cut = /\.slice\(0, ?16\)\.replace\("T"|\b(?:at|since|until|updated|created|seen|iso)\)?\.slice\(0, ?1[06]\)/;
    expect(own.filter((f) => cut.test(text(f)))).toEqual([]);
  });
});

describe("questions", () => {
  it("are the folders of src/sheets that hold an ask.ts, each in its place in order.ts", () => {
    const folders = tracked.flatMap((f) => /^src\/sheets\/([\w-]+)\/ask\.ts$/.exec(f)?.[1] ?? []);
    expect([...order].sort()).toEqual(folders.sort());
    expect(sheets.map((s) => s.id)).toEqual(order);
  });
});

describe("tests", () => {
  it("set no time limit of their own, which a slow machine would miss: the general one is an hour", () => {
    const limit = /\btimeout: \d|setDefault(?:Navigation)?Timeout|chromium\.launch|^\s*\},? [\d_]{4,}\);$/m;
    const ofTests = tracked.filter((f) => isTest(f) && f.startsWith("src/") && f !== "src/faces/web/chromium.testdata.ts");
    expect(ofTests.filter((f) => limit.test(text(f)))).toEqual([]);
  });
  it("published checks name their source", () => {
    expect(tracked.filter((f) => f.endsWith(".published.test.ts") && !/source/i.test(text(f)))).toEqual([]);
  });
  it("every test file asserts something", () => {
    expect(tracked.filter((f) => f.endsWith(".test.ts") && !text(f).includes("expect("))).toEqual([]);
  });
});

describe("documents", () => {
  it.each(documents)("%s holds its tables as the declarations have them now (npm run tables renews them)", (d) => {
    expect(text(d)).toBe(renewed(text(d)));
    for (const m of text(d).matchAll(/<!-- table: (\w+) -->/g)) expect(Object.keys(tables)).toContain(m[1]);
  });
  it.each(documents)("%s has no empty table where one is made", (d) => {
    for (const m of text(d).matchAll(/^<!-- table: (\w+) -->\n([\s\S]*?)<!-- end -->/gm))
      expect(m[2].split("\n").length, m[1]).toBeGreaterThan(6);
  });
  it("the page of the job format names the version that is written", () => {
    expect(text("docs/job-format.md")).toContain(`\`version\` is ${formatVersion}.`);
  });
  it.each(Object.entries(made))("%s is as the declarations make it now (npm run tables renews it)", (path, make) => {
    expect(text(path)).toBe(make());
  });
  it("link only to what is there", () => {
    const bad = tracked
      .filter((f) => f.endsWith(".md"))
      .flatMap((f) =>
        [...text(f).matchAll(/\]\((?!https?:)([^)#]+)\)/g)].flatMap((m) =>
          existsSync(join(root, dirname(f), m[1])) ? [] : [`${f}: ${m[1]}`],
        ),
      );
    expect(bad).toEqual([]);
  });
  it("name every package that the project leans on, and what it does", () => {
    const rows = text("docs/dependencies.md")
      .split("\n")
      .filter((l) => l.startsWith("| `"));
    const named = new Set(rows.flatMap((l) => [...l.split("|")[1].matchAll(/`([^`]+)`/g)].map((m) => m[1])));
    const { dependencies, devDependencies } = JSON.parse(text("package.json")) as Record<string, Record<string, string>>;
    const all = [...Object.keys(dependencies), ...Object.keys(devDependencies).filter((d) => !d.startsWith("@types/"))];
    expect([...named].sort()).toEqual(all.sort());
  });
  const house = text("docs/architecture.md");
  it("the plan of the house explains every floor and every room on it, and no room that is gone", () => {
    const rooms = new Set(tracked.flatMap(roomsOf));
    expect(
      [...rooms].filter((r) => !house.includes(`\`${r}\``)),
      "say in docs/architecture.md what it is for",
    ).toEqual([]);
    const named = [...house.matchAll(/`(src\/[\w/.-]+)`/g)].map((m) => m[1]);
    expect(named.length).toBeGreaterThan(60);
    expect(named.filter((f) => !["", ".ts", ".tsx"].some((e) => existsSync(join(root, f + e))))).toEqual([]);
  });
  it("the rules of the floors name every floor of the plan, and forbid circles and imports that run up", () => {
    const rules = text(".dependency-cruiser.cjs");
    const floors = new Set(tracked.flatMap((f) => /^src\/([\w-]+)\//.exec(f)?.[1] ?? []));
    expect([...floors].filter((f) => !rules.includes(`"${f}"`))).toEqual([]);
    expect(rules).toMatch(/name: "no-circles", severity: "error", from: \{\}, to: \{ circular: true \}/);
  });
  it("name only files that exist", () => {
    const example = /^src\/sheets\/dropping\/|your-command/;
    const gone = tracked
      .filter((f) => f.endsWith(".md") && f !== "CHANGELOG.md")
      .flatMap((f) =>
        [...text(f).matchAll(/`((?:src|checks)\/[\w./-]+\.\w+)`/g)].flatMap(([, named]) =>
          example.test(named) || existsSync(join(root, named)) ? [] : [`${f}: ${named}`],
        ),
      );
    expect(gone, "say where it is now").toEqual([]);
  });
});

describe("words", () => {
  const read = tracked.filter((f) => (/^src\/.*\.tsx?$/.test(f) && !isTest(f)) || /^src\/.*\.md$|^docs\/.*\.md$|^[A-Z]+\.md$/.test(f));
  it.each(forbidden)("say it as one says it: nothing has %s, but %s", (phrase, better) => {
    const bad = read.flatMap((f) =>
      text(f)
        .split("\n")
        .flatMap((l, i) => (phrase.test(l) ? [`${f}:${i + 1}`] : [])),
    );
    expect(bad, better).toEqual([]);
  });
  const prose = tracked
    .filter((f) => /^(?:README|CONTRIBUTING)\.md$|^docs\/.*\.md$|^src\/.*\.md$/.test(f))
    .flatMap((f) =>
      text(f)
        // names in code are not prose, and the table of the words names what they are not used for
        .replace(/<!-- table: words -->[\s\S]*?<!-- end -->/g, (t) => t.replace(/[^\n]/g, ""))
        .replace(/```[\s\S]*?```/g, (t) => t.replace(/[^\n]/g, ""))
        .replace(/`[^`\n]*`|\]\([^)]*\)/g, "")
        .split("\n")
        .map((l, i) => ({ at: `${f}:${i + 1}`, text: l })),
    );
  const said = [...tracked.filter((f) => /^src\/.*\.tsx?$/.test(f) && !isTest(f)).flatMap((f) => saidIn(join(root, f))), ...prose];
  it.each(senses)("one word, one thing: $word is $is", (s) => {
    expect(said.length).toBeGreaterThan(5000);
    expect(misused(said, s), s.not).toEqual([]);
  });
  it.each(unsaid)("tell a person what the bench says: no text has %s, but %s", (phrase, better) => {
    expect(
      said.flatMap((s) => (phrase.test(s.text) ? [`${s.at}: ${s.text.slice(0, 160)}`] : [])),
      better,
    ).toEqual([]);
  });
  it("each way to measure stands alone, since it is read alone and tells what it wants of the set", () => {
    expect(waysToMeasure().length).toBeGreaterThan(500);
    expect(waysThatLean(), "say how, in full").toEqual([]);
  });
  it("each declared meaning stands alone, since a list is shown in another order", () => {
    expect(meanings().length).toBeGreaterThan(800);
    expect(leaning()).toEqual([]);
  });
});

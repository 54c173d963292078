import { execFileSync } from "node:child_process";
import { expect, it } from "vitest";
import { bashScript } from "./completion";
import { everyLine } from "./lines";
import { manualPage } from "./manual";

/** What bash itself completes with the script. */
async function completed(...words: readonly string[]): Promise<string[]> {
  const script = bashScript(await everyLine());
  const ask = `COMP_WORDS=(${words.map((w) => `'${w}'`).join(" ")}); COMP_CWORD=${words.length - 1}; _fettle; echo "\${COMPREPLY[@]}"`;
  return execFileSync("bash", ["-c", `${script}\n${ask}`], { encoding: "utf8" })
    .trim()
    .split(" ");
}
it("completes commands, options and the words that an option chooses from", async () => {
  expect(await completed("fettle", "ta")).toEqual(["take-back"]);
  expect(await completed("fettle", "zero-beat", "--")).toEqual(["--band", "--set-point", "--approach", "--thermal", "--help"]);
  expect(await completed("fettle", "zero-beat", "--approach", "")).toEqual(["up", "down", "not-said"]);
  expect(await completed("fettle", "report", "--o")).toEqual(["--output"]);
});
it("has a manual page in which no text is a request, and every command stands", async () => {
  const lines = await everyLine();
  const page = manualPage(lines, "1");
  for (const l of lines) expect(page).toContain(`.SS \\fB${l.command.name.replace(/-/g, "\\-")}\\fR`);
  expect(page).toMatch(/^[\n -~]*$/);
  for (const text of page.split("\n").filter((l) => l.startsWith("."))) expect(text).toMatch(/^\.(TH|SH|SS|TP|PP|B|nf|fi|\\")/);
});

import { resolve } from "node:path";
import { rehearse } from "../../desk/commands/rehearse";
import { rehearsedFiles } from "../../desk/rehearse";
import { line } from "./line";
import { checkOutput, writeBytes } from "./output";
import { columnsOf, wrap } from "./render";

export const rehearseLine = line(rehearse, async ({ said, here, act, out, world }) => {
  const stem = here.output.replace(/\.wav$/i, "");
  const files = [`${stem}-as-it-is.wav`, `${stem}-as-it-would-be.wav`].map((path) => ({ path, replace: here.replace }));
  for (const f of files) checkOutput(world, f);
  const done = (await act(said, { progress: world.progress })).rendered();
  world.progress("");
  for (const [i, bytes] of rehearsedFiles(done).entries()) await writeBytes(world, files[i], bytes);
  const { page } = world;
  out(
    [
      ...wrap(done.card, page.columns),
      "",
      ...columnsOf(
        [["measured on what is heard", "as it is", "as it would be"], ...done.figures.map((f) => [f.name, f.asItIs, f.asItWouldBe])],
        page.columns,
      ),
      "",
      ...files.map((f) => resolve(f.path)),
    ].join("\n"),
  );
});

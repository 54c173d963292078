import { z } from "zod";
import { declare, field, nothing } from "../declare";

export const completion = declare({
  name: "completion",
  says: "print a script that lets your shell complete commands, options and words",
  example: "fettle completion bash > ~/.local/share/bash-completion/completions/fettle",
  records: false,
  takes: z.object({ shell: field(z.enum(["bash"]), "<shell>", "the shell") }),
  here: nothing,
  /** what is completed are the words of the command line, which only it knows */
  act: async ({ shell }) => shell,
});

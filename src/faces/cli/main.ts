/** The command line: its options come from the declarations of the commands, and whatever goes wrong is told in words. */
import { randomUUID } from "node:crypto";
import { existsSync } from "node:fs";
import { Command, CommanderError } from "commander";
import { version } from "../../../package.json";
import type { Desk } from "../../desk/actions";
import { tell } from "../../desk/tell";
import { type Home, homeOf, openHome } from "../../store/home";
import { InputError } from "../../units/issue";
import { closest } from "../../units/nearest";
import { own } from "../../units/own";
import { seen } from "../../units/plain-text";
import { errandsWhenAsked } from "../errands/errands-when-asked";
import { whoIsHere } from "../who";
import type { Terminal } from "./line";
import { everyLine, groupedLines, lines } from "./lines";
import { refuseInWords } from "./usage";
import type { World } from "./world";

/** The program with the command that was asked for, or with all where none is named. */
async function programFor([name = ""]: readonly string[], terminal: Terminal): Promise<Command> {
  const { world } = terminal;
  const program = new Command("fettle")
    .description("The bench companion of a person who restores vintage communications receivers and fits accessories to them.")
    .version(version, "--version", "print the version")
    .configureHelp({ subcommandTerm: (c) => c.name() })
    .configureOutput({ writeOut: (s) => world.out(s.trimEnd()), writeErr: (s) => world.err(s.trimEnd()) });
  refuseInWords(program, "", []);
  const load = own(lines, name);
  if (load) (await load()).add(program, terminal);
  else
    for (const [heading, group] of await groupedLines()) {
      program.commandsGroup(`${heading}:`);
      for (const line of group) line.add(program, terminal);
    }
  return program;
}
/** Whether there may be jobs: a file that is not there is not made for a question. */
const mayHold = (home: Home): boolean => home.kind === "shop" || existsSync(home.path);
/** What was meant: the name of a job alone asks where it stands. */
async function meant(argv: readonly string[], { world, desk }: Terminal): Promise<readonly string[]> {
  const [name] = argv;
  if (name === undefined || name.startsWith("-") || name === "help" || own(lines, name)) return argv;
  if (argv.length === 1 && mayHold(homeOf(world.env)) && (await desk(({ store }) => store.revision(name))) !== undefined)
    return ["where", name];
  const near = closest(name, Object.keys(lines)).join(" or ");
  const expected = `a command, such as ${near}, or the name of a job (fettle --help lists the commands)`;
  throw new InputError([{ path: "command", code: "no-command", read: name, expected }]);
}
/** Builds the command line over a world. Exit codes: 0 done, 1 judged and found wanting, 2 bad usage or input. */
export function commandLine(given: World): { readonly run: (argv: readonly string[]) => Promise<number> } {
  let exit = 0;
  // the one place where anything is said: what others have typed into a job is shown, never obeyed
  const world: World = {
    ...given,
    out: (t) => given.out(seen(t)),
    err: (t) => given.err(seen(t)),
    progress: (t) => given.progress(seen(t)),
  };
  const errands = world.errands ?? errandsWhenAsked(randomUUID);
  const said = new Set<string>();
  const noticed = (text: string): void => {
    if (!said.has(text)) world.err(text);
    said.add(text);
  };
  const desk = async <T>(work: (d: Desk) => Promise<T>): Promise<T> => {
    const home = homeOf(world.env);
    const store = await openHome(home, world.now, noticed);
    try {
      return await work({
        store,
        errands,
        stamp: { at: world.now(), who: whoIsHere(world.env, home), newId: randomUUID },
        notice: noticed,
      });
    } finally {
      await store.close();
    }
  };
  const terminal: Terminal = {
    world,
    errands,
    desk,
    everyLine,
    judge: (code) => {
      exit = code;
    },
  };
  return {
    run: async (typed) => {
      try {
        const argv = await meant(typed, terminal);
        await (await programFor(argv, terminal)).parseAsync([...argv], { from: "user" });
        return exit;
      } catch (e) {
        if (e instanceof CommanderError) return e.exitCode === 0 ? 0 : 2;
        if ((e as { code?: string }).code === "EPIPE") return 0;
        world.err(tell(e).lines);
        if (world.env.FETTLE_TRACE && e instanceof Error) world.err(e.stack ?? "");
        return 2;
      }
    },
  };
}

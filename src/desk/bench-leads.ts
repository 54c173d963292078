import { z } from "zod";
import { type CommonCommands, Instrument } from "../instruments/instrument";
import { overTcp, readAddress, usualPort } from "../instruments/tcp";
import { type KindOfInstrument, readCommands } from "../readings/scpi/commands";
import { orThrow } from "../units/issue";
import { field, fileSchema } from "./declare";

/** How long an instrument may take to answer. */
const patienceMs = 5000;

export const addressField = (usage: string, says: string) =>
  field(z.string(), usage, `${says}: host, or host:port (${usualPort} if not given)`);
export const commandsField = (usage: string, whose: string) =>
  field(fileSchema.optional(), usage, `the ${whose}'s own commands, edited from \`fettle instrument-commands\``, { file: true });

/**
 * An instrument on the network, by its address and its own commands; not connected yet.
 *
 * @throws {InputError} where the address or the commands can't be read
 */
export function onNetwork<C extends CommonCommands & Readonly<Record<string, string>>>(
  kind: KindOfInstrument<C>,
  name: string,
  said: { readonly address: string; readonly path: string; readonly commands?: z.output<typeof fileSchema> | undefined },
): Instrument<C> {
  const at = orThrow(readAddress(said.address, said.path));
  const commands = said.commands
    ? orThrow(readCommands(kind, new TextDecoder().decode(said.commands.bytes), said.commands.name))
    : kind.standard;
  return new Instrument(overTcp(at, patienceMs), name, commands, patienceMs);
}

import { isIPv4 } from "node:net";
import { networkInterfaces } from "node:os";
import { InputError } from "../../../units/issue";

/** Source: RFC 1918, section 3: the blocks that no router passes on to the internet. */
const privateBlocks = [/^10\./, /^172\.(?:1[6-9]|2\d|3[01])\./, /^192\.168\./];

/** Whether an address is one of a house network. */
export const isOfHouse = (address: string): boolean => isIPv4(address) && privateBlocks.some((b) => b.test(address));

/** Addresses of this machine on a house network; none where it is on none. */
export const houseAddresses = (): readonly string[] =>
  Object.values(networkInterfaces()).flatMap((all) => (all ?? []).flatMap((i) => (!i.internal && isOfHouse(i.address) ? [i.address] : [])));

/**
 * The address that a person names for devices to join at: of a house network, or this machine's own.
 *
 * @throws {InputError} on any other, since it might be reached from the internet
 */
export function houseAddress(said: string): string {
  if (isOfHouse(said) || (isIPv4(said) && said.startsWith("127."))) return said;
  throw new InputError([
    { path: "--house", code: "not-of-house", read: said, expected: "an address of a house network, such as 192.168.1.20" },
  ]);
}

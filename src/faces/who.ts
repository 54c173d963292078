import { hostname, userInfo } from "node:os";
import type { Home } from "../store/home";

const user = (): string => {
  try {
    return userInfo().username;
  } catch {
    return "unknown";
  }
};
/**
 * Who records: by FETTLE_WHO where that says it, else the user of this machine, in a shop with the machine's name, so that two machines are told apart.
 *
 * @param env the environment
 * @param home where it is recorded
 */
export function whoIsHere(env: Readonly<Record<string, string | undefined>>, home: Home): string {
  const said = env.FETTLE_WHO?.trim() ?? "";
  if (said !== "") return said.slice(0, 100);
  return home.kind === "shop" ? `${user()} at ${hostname()}` : user();
}

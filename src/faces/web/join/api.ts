import type { DoorState } from "../../server/joining/door";
import { call, post } from "../api";

export type { DoorState };

/** What the page asks at the door to the house network. */
export const door = {
  state: (signal: AbortSignal) => call<DoorState>("api/joined", { signal }),
  code: (job: string, address: string) => post<DoorState>("api/joined/code", { job, address }),
  sendAway: (id: string) => post<DoorState>("api/joined/away", { id }),
  join: (code: string, device: string) => post<{ at: string; job: string }>("api/join", { code, device }),
};

import { z } from "zod";

/** A name for a device that joins, as the history will show it. */
const device = z
  .string()
  .trim()
  .min(1, "a name for this device, such as phone")
  .max(30, "a name of at most 30 characters")
  .regex(/^[\p{L}\p{N} .'-]+$/u, "a name of letters and digits");

/** What a device says that wants to join. */
export const joinSaid = z.object({ code: z.string().max(40), device });
/** What the page says that wants a code: the job that it is for, and where a device can reach this machine. */
export const codeSaid = z.object({ job: z.string().min(1).max(200), address: z.string().max(60).default("") });
/** The joined device that is sent away. */
export const awaySaid = z.object({ id: z.string().max(60) });

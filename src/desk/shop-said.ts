import { z } from "zod";
import { accountRoles } from "../store/accounts/accounts";
import { kindsKept } from "../store/kept/kept";

/** How long an owner's link may be good. */
export const ownerLinkDays = z.coerce
  .number("a number of days")
  .int("a whole number of days")
  .min(1, "a day at least")
  .max(366, "a year at most");

const name = z.string("a name").max(100, "a name of at most 40 characters");
const password = z.string("a password").max(1000, "a password of at most 200 characters");
/** What the page's own fields say to a shop: each as the browser sends it. */
export const signInSaid = z.object({ name, password });
export const setPasswordSaid = z.object({
  code: z.string("a code").max(100, "a code as it was printed"),
  name: name.default(""),
  password,
});
export const changePasswordSaid = z.object({ before: password, password });
export const accountSaid = z.object({
  name,
  role: z.enum(accountRoles, "bench or keeper").optional(),
  act: z.enum(["make", "role", "code", "shut", "reopen"], "what to do"),
});
export const linkSaid = z.object({ job: z.string("the name of a job").min(1, "the name of a job").max(200), days: ownerLinkDays });
export const keepSaid = z.object({ kind: z.enum(kindsKept, "what is kept"), time: z.string("how long").max(40, "how long") });
export const clearOutSaid = z.object({ confirm: z.string("the digits of the list").max(20) });
export const withdrawSaid = z.object({ id: z.string().max(60) });

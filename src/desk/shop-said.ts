import { z } from "zod";

/** How long an owner's link may be good. */
export const ownerLinkDays = z.coerce
  .number("a number of days")
  .int("a whole number of days")
  .min(1, "a day at least")
  .max(366, "a year at most");

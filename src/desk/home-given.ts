import { z } from "zod";
import { unseen } from "./declare";

const homeSchema = z.union([
  z.object({ kind: z.literal("file"), path: z.string() }),
  z.object({ kind: z.literal("shop"), url: z.string() }),
]);

/** Where the store is: said by the terminal, never typed. */
export const homeGiven = () => unseen(homeSchema, { kind: "file", path: "" });

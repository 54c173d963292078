import type { Errands } from "../../desk/errand";

/** Does every errand on this thread, and loads what does them when the first is asked for. */
export const errandsWhenAsked = (newId: () => string): Errands => ({
  run: async (name, given, beside) => (await import("./errands-here")).errandsHere(newId).run(name, given, beside),
});

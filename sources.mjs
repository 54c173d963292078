/** For Node's --import: from then on it runs the sources as they stand. */
import { register } from "node:module";

register("./source-hooks.mjs", import.meta.url);

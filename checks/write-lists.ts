import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { lists } from "./lists";

for (const [path, make] of Object.entries(lists)) writeFileSync(join(process.cwd(), path), make());

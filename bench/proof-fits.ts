/** The coverage of the fits alone: prints its page, and keeps it with --write. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { fitsPage } from "./proof/fits";

const page = fitsPage();
console.log(page);
if (process.argv[2] === "--write") writeFileSync(join("docs", "proof-fits.md"), page);

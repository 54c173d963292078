import { renewAll } from "./tables";

renewAll(process.cwd());

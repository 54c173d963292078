/** A process of its own that writes entries of every kind into one job, pair by pair, until it is killed; says each pair once it was told that it is recorded. */
import { homeOf, openHome } from "../src/store/home";
import { entriesFrom } from "./siege/shop/entries";

const [job, who, first] = process.argv.slice(2);
const pauseMs = 300;
const next = entriesFrom(Number(first));
const store = await openHome(homeOf());
for (let i = Number(first); ; i++) {
  const pair = ["a", "b"].map((end) => next(`${who}-${i}-${end}`, who, new Date().toISOString()));
  await store.append(job, pair);
  process.stdout.write(`${JSON.stringify(pair)}\n`);
  // others read the whole job for each of theirs
  await new Promise((r) => setTimeout(r, pauseMs));
}

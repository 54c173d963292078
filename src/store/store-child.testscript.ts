/** Writes to the store that the environment names until it is killed: says each entry on a line once it is acknowledged. Run by homes.test.ts. */
import { homeOf, openHome } from "./home";

const [name, tag] = process.argv.slice(2);
const store = await openHome(homeOf(process.env));
for (let i = 0; ; i++) {
  const id = `${tag}-${i}`;
  await store.append(
    name,
    [
      { id, at: "2026-01-01T00:00:00Z", who: tag, kind: "done", step: "01", note: String(i) },
      { id: `${id}-b`, at: "2026-01-01T00:00:00Z", who: tag, kind: "form", form: "intake", fields: { i: String(i) } },
    ],
    i % 10 === 0 ? [{ hash: id, name: id, media: "text/plain", bytes: new Uint8Array(2000).fill(i % 251) }] : [],
  );
  process.stdout.write(`${id}\n`);
}

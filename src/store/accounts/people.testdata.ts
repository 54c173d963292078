/** People of a shop for tests: accounts in a fresh home, other servers beside it, time that is made to pass, and a way past the application. */
import Database from "better-sqlite3";
import { type Home, openHome } from "../home";
import { asQuery, byRuler } from "../shop.testdata";
import type { JobStore } from "../store";
import { passwords } from "./passwords";
import type { ShopKeeping } from "./shop-keeping";

/** Passwords that cost next to nothing to work out: tests of who may come in do not try how long scrypt takes. */
export const cheap = passwords({ ln: 4, r: 8, p: 1 });
export const good = "four old brass knobs";
const from = "192.168.1.20";

interface People {
  readonly store: JobStore;
  readonly home: Home;
  readonly keeping: ShopKeeping;
  readonly wait: (ms: number) => void;
  /** another server on the same database */
  readonly beside: <T>(work: (k: ShopKeeping) => Promise<T>) => Promise<T>;
  readonly person: (name: string, role: "bench" | "keeper", password?: string) => Promise<void>;
}

/** Opens a fresh home on the first of February 2026 at eight, and closes it after the work. */
export async function withPeople(fresh: () => Promise<Home>, work: (at: People) => Promise<void>): Promise<void> {
  let ms = Date.parse("2026-02-01T08:00:00.000Z");
  const now = () => new Date(ms).toISOString();
  const home = await fresh();
  const store = await openHome(home, now);
  const keeping = store.keeping(cheap);
  try {
    await work({
      store,
      home,
      keeping,
      wait: (by) => {
        ms += by;
      },
      beside: async (act) => {
        const other = await openHome(home, now);
        return act(other.keeping(cheap)).finally(() => other.close());
      },
      person: async (name, role, password = good) => {
        await keeping.accounts.setPassword(await keeping.accounts.make(name, role, "t"), password, "");
      },
    });
  } finally {
    await store.close();
  }
}

/** The code by which something is refused; "taken" where it is not. */
export const codeOf = (p: Promise<unknown>): Promise<string> =>
  p.then(
    () => "taken",
    (e) => e.issues?.[0].code ?? e.code,
  );
/** Tries to sign somebody in. */
export const enter = (k: ShopKeeping, name: string, password = good, more: { readonly from?: string; readonly before?: string } = {}) =>
  k.sessions.signIn({ name, password, from, ...more });
/** Signs somebody in who must be let in. */
export async function entered(...asked: Parameters<typeof enter>) {
  const r = await enter(...asked);
  if (r.is !== "in") throw new Error(`${asked[1]} was not let in`);
  return r;
}

/** Asks the database itself, as somebody does who is past the application; of a shop's by the account that may do anything there. */
export async function behind(home: Home, text: string): Promise<readonly Record<string, unknown>[]> {
  if (home.kind === "shop") {
    const tables = /\b(audit(?:_head)?|account|session|set_code|owner_link|sign_in_try)\b(?!')/g;
    return (await asQuery(byRuler(home.url), text.replaceAll(tables, "fettle.$1"))).rows;
  }
  const raw = new Database(home.path);
  try {
    const s = raw.prepare(text);
    if (s.reader) return s.all() as Record<string, unknown>[];
    s.run();
    return [];
  } finally {
    raw.close();
  }
}

/** How the query library asks a SQLite file: statements prepared once, and the one connection handed on in the order in which it was asked for. */
import type Database from "better-sqlite3";
import { CompiledQuery, type DatabaseConnection, type Driver, type QueryResult, SqliteDialect } from "kysely";

/** Most statements that are kept prepared; those of lists of many lengths come and go. */
const mostPrepared = 400;
type Statement = Database.Statement<unknown[], unknown>;

/** Statements by their words, the one used longest ago let go first. */
function preparedOnce(raw: Database.Database): (sql: string) => Statement {
  const kept = new Map<string, Statement>();
  return (sql) => {
    const statement = kept.get(sql) ?? raw.prepare<unknown[], unknown>(sql);
    kept.delete(sql);
    kept.set(sql, statement);
    if (kept.size > mostPrepared) kept.delete(kept.keys().next().value ?? "");
    return statement;
  };
}
/** A turn is had in the order in which it was asked for; who waits is woken once. */
function turns(): { readonly take: () => Promise<void>; readonly give: () => void } {
  const waiting: (() => void)[] = [];
  let isTaken = false;
  return {
    take: () => {
      if (isTaken) return new Promise((go) => waiting.push(go));
      isTaken = true;
      return Promise.resolve();
    },
    give: () => {
      const next = waiting.shift();
      if (next) next();
      else isTaken = false;
    },
  };
}
const connectionOf = (raw: Database.Database): DatabaseConnection => {
  const prepared = preparedOnce(raw);
  return {
    executeQuery: <R>({ sql, parameters }: CompiledQuery): Promise<QueryResult<R>> => {
      const statement = prepared(sql);
      if (statement.reader) return Promise.resolve({ rows: statement.all(...parameters) as R[] });
      const { changes, lastInsertRowid } = statement.run(...parameters);
      return Promise.resolve({ numAffectedRows: BigInt(changes), insertId: BigInt(lastInsertRowid), rows: [] });
    },
    streamQuery: () => {
      throw new Error("a file's rows are not streamed");
    },
  };
};

/** The query library's own dialect of SQLite, with this driver. */
export class SqliteFileDialect extends SqliteDialect {
  constructor(private readonly raw: Database.Database) {
    super({ database: raw });
  }
  override createDriver(): Driver {
    const { raw } = this;
    const [connection, turn] = [connectionOf(raw), turns()];
    const say = (sql: string) => async (c: DatabaseConnection) => void (await c.executeQuery(CompiledQuery.raw(sql)));
    return {
      init: () => Promise.resolve(),
      acquireConnection: () => turn.take().then(() => connection),
      beginTransaction: say("begin"),
      commitTransaction: say("commit"),
      rollbackTransaction: say("rollback"),
      releaseConnection: () => Promise.resolve(turn.give()),
      destroy: () => Promise.resolve(void raw.close()),
    };
  }
}

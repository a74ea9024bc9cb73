import type { Database } from 'better-sqlite3';

interface Column {
  name: string;
  type: string;
  notnull: number;
  dflt_value: string | null;
  pk: number;
}

/** The tables that hold what people entered; those of the search index and of the database itself are made from them. */
export function tablesOf(db: Database): string[] {
  return db
    .prepare<[], string>(
      `SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table'
       AND name NOT LIKE 'sqlite_%' ORDER BY name`,
    )
    .pluck()
    .all();
}

function columnsOf(db: Database, table: string): Column[] {
  return db.prepare<[string], Column>('SELECT * FROM pragma_table_info(?)').all(table);
}

/** Each table with its columns as `name TYPE`, and `not null` where it must be there. */
export function schemaOf(db: Database): Record<string, string[]> {
  return Object.fromEntries(
    tablesOf(db).map((table) => [
      table,
      columnsOf(db, table).map(({ name, type, notnull }) => `${name} ${type}${notnull ? ' not null' : ''}`),
    ]),
  );
}

/** Everything in all tables, by table and column, so that rows can be compared before and after a step. */
export interface Content {
  [table: string]: { columns: Column[]; rows: string[] };
}

/** Reads all rows; `like` names the columns to read, for a step may have added some. */
export function contentOf(db: Database, like?: Content): Content {
  return Object.fromEntries(
    (like ? Object.keys(like).filter((table) => tablesOf(db).includes(table)) : tablesOf(db)).map((table) => {
      const columns = columnsOf(db, table);
      const wanted = (like?.[table]?.columns ?? columns).map(({ name }) => name);
      const there = wanted.filter((name) => columns.some((column) => column.name === name));
      const listed = there.map((name) => `"${name}"`).join(', ');
      const rows = listed === '' ? [] : db.prepare(`SELECT ${listed} FROM "${table}"`).raw().all();
      return [table, { columns, rows: rows.map((row) => JSON.stringify(row)).sort() }];
    }),
  );
}

/** What a step took away or made stricter: nothing, where it only added. */
export function lossesOf(before: Content, after: Content): string[] {
  return Object.entries(before).flatMap(([table, was]) => {
    const is = after[table];
    if (!is) return [`the table ${table} is gone`];
    const columnLosses = was.columns.flatMap((column) => {
      const now = is.columns.find(({ name }) => name === column.name);
      if (!now) return [`the column ${table}.${column.name} is gone`];
      const changed = now.type !== column.type || now.pk !== column.pk;
      const stricter = now.notnull > column.notnull;
      return changed || stricter ? [`the column ${table}.${column.name} has changed`] : [];
    });
    const added = is.columns.filter(({ name }) => !was.columns.some((column) => column.name === name));
    const demanding = added.filter(({ notnull, dflt_value }) => notnull && dflt_value === null);
    const kept = new Set(is.rows);
    const lostRows = columnLosses.length === 0 && was.rows.some((row) => !kept.has(row));
    return [
      ...columnLosses,
      ...demanding.map(({ name }) => `the new column ${table}.${name} is not null and has no default`),
      ...(lostRows ? [`rows of ${table} were changed or removed`] : []),
    ];
  });
}

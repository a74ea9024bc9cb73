/*
 * The price book with 100,000 items: searching against the bare query of the index, and importing against reading and
 * inserting the same list without checks, index and history. Both sides in one run, each with a data folder of its own.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import Database from 'better-sqlite3';
import { parse } from 'csv-parse/sync';
import { openData } from '../../dist/db/open.js';
import { searchQuery } from '../../dist/db/search-words.js';
import { PriceItem } from '../../dist/server/estimate/price-book.js';
import { parsePriceCsv, writePriceCsv } from '../../dist/server/estimate/price-csv.js';
import { seedPrices } from '../../dist/server/seed-prices.js';

const ITEMS = 100_000;
const ROUNDS = 5;
const SEARCHES = ['wire 6', 'breaker 2p 60', 'pvc elbow', '1/0 copper', 'nm-b', 'labor 77', 'coil strap box', 'x99'];

/** So many items: those of the starting book again and again, under keys and words of their own. */
function manyItems() {
  const seeded = seedPrices();
  return Array.from({ length: ITEMS }, (_, at) => {
    const { spec: _spec, ...item } = seeded[at % seeded.length];
    return { ...item, key: `${item.key}-${at}`, description: `${item.description}, lot ${at % 997}` };
  });
}

function ms(work) {
  const start = performance.now();
  work();
  return performance.now() - start;
}
const middle = (times) => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)];

/** Reads the list and puts its rows into a table of the same columns, one transaction, nothing else. */
function bareImport(csv, file) {
  const db = new Database(file);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.exec(`CREATE TABLE item (id INTEGER PRIMARY KEY, key TEXT NOT NULL, kind TEXT, description TEXT, class TEXT, scope TEXT,
    category TEXT, unit TEXT, low REAL, likely REAL, high REAL, spec TEXT, package TEXT, quantity REAL, lowCents REAL,
    likelyCents REAL, highCents REAL, packageAvailable TEXT, trade TEXT, date TEXT, region TEXT, source TEXT, supplier TEXT,
    available TEXT, packageDate TEXT) STRICT`);
  const insert = db.prepare(`INSERT INTO item VALUES (NULL${', ?'.repeat(24)})`);
  const numbers = [7, 8, 9, 12, 13, 14, 15];
  const taken = ms(() => {
    const [, ...rows] = parse(csv);
    db.transaction(() => {
      for (const row of rows) {
        for (const at of numbers) row[at] = row[at] === '' ? null : Number(row[at]);
        insert.run(row);
      }
    })();
  });
  db.close();
  return taken;
}

/** The repository's search, and the same words asked of the index alone: ranked, the first page. */
function searches(data) {
  const bare = data.db.prepare(
    'SELECT rowid FROM price_item_search WHERE price_item_search MATCH ? ORDER BY rank LIMIT 50',
  );
  const pairs = SEARCHES.map((search) => {
    const words = searchQuery(search);
    const times = { bare: [], ours: [] };
    for (let round = 0; round < ROUNDS; round += 1) {
      times.bare.push(ms(() => bare.all(words)));
      times.ours.push(ms(() => data.prices.list({ search })));
    }
    return { search, bare: middle(times.bare), ours: middle(times.ours) };
  });
  return pairs;
}

/** Rows for the table of the bench. */
export function priceBookRows({ milliseconds }) {
  const folder = mkdtempSync(join(tmpdir(), 'feedrun-bench-'));
  const rows = [];
  const row = (what, figure) => rows.push({ what, figure });
  try {
    const csv = writePriceCsv(manyItems());
    bareImport(csv, join(folder, 'warm.db'));
    const rounds = [];
    let data;
    for (let round = 0; round < ROUNDS; round += 1) {
      data?.close();
      const bare = bareImport(csv, join(folder, `bare-${round}.db`));
      data = openData(join(folder, `data-${round}`), { readItem: PriceItem.parse });
      const ours = ms(() => data.prices.importItems(parsePriceCsv(csv).items));
      rounds.push({ bare, ours, times: ours / bare });
    }
    const of = (figure) => middle(rounds.map((round) => round[figure]));
    row('import of 100,000 items, read and inserted only', milliseconds(of('bare')));
    row('the same with checks, index and history', milliseconds(of('ours')));
    row(`times longer, the middle of ${ROUNDS} pairs`, of('times').toFixed(1));
    row('the same list again, nothing new', milliseconds(ms(() => data.prices.importItems(parsePriceCsv(csv).items))));
    for (const { search, bare, ours } of searches(data)) {
      row(`search "${search}" in them, bare query and ours`, `${milliseconds(bare)} ${milliseconds(ours)}`);
      row('times longer', (ours / bare).toFixed(1));
    }
    data.close();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return rows;
}

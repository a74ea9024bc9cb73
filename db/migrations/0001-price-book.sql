-- The price book: what an estimate is priced with, and every price that an item ever had, so that a quote can name
-- the price it was issued with and a book of the past can be read again.

-- One whole number for the whole book, one more for every accepted change or import.
CREATE TABLE book (
  id       INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),
  revision INTEGER NOT NULL CHECK (revision >= 0)
) STRICT;
INSERT INTO book (id, revision) VALUES (1, 0);

-- low, likely and high are cents, hours, cents an hour or a plain number, as `kind` says; cents may have fractions
-- here, for a foot or a staple can cost less than one.
CREATE TABLE price_item (
  id          INTEGER NOT NULL PRIMARY KEY,
  key         TEXT    NOT NULL UNIQUE CHECK (key GLOB '[a-z0-9]*' AND key NOT GLOB '*[^a-z0-9_-]*'),
  kind        TEXT    NOT NULL CHECK (kind IN ('price', 'labor-unit', 'rate', 'factor')),
  description TEXT    NOT NULL CHECK (description <> ''),
  class       TEXT    NOT NULL CHECK (class IN ('material', 'labor', 'equipment', 'fee')),
  scope       TEXT    NOT NULL CHECK (scope <> ''),
  category    TEXT    NOT NULL CHECK (category <> ''),
  unit        TEXT    NOT NULL CHECK (unit <> ''),
  low         REAL    NOT NULL CHECK (low >= 0),
  likely      REAL    NOT NULL CHECK (likely >= low),
  high        REAL    NOT NULL CHECK (high >= likely AND high <= 10000000000),
  spec        TEXT    CHECK (spec IS NULL OR (json_valid(spec) AND json_extract(spec, '$.is') <> '')),
  trade       TEXT    CHECK (trade <> ''),
  date        TEXT    NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  region      TEXT    NOT NULL CHECK (region <> ''),
  source      TEXT    NOT NULL CHECK (source <> ''),
  supplier    TEXT    CHECK (supplier <> ''),
  available   INTEGER NOT NULL CHECK (available IN (0, 1)),
  revision    INTEGER NOT NULL CHECK (revision >= 1)
) STRICT;
CREATE INDEX price_item_by_category ON price_item (category, key);

-- The packages that an item is sold in, in the order that they were stated.
CREATE TABLE price_offer (
  item_id      INTEGER NOT NULL REFERENCES price_item (id) ON DELETE CASCADE,
  position     INTEGER NOT NULL CHECK (position >= 0),
  package      TEXT    NOT NULL CHECK (package <> ''),
  quantity     REAL    NOT NULL CHECK (quantity > 0),
  low_cents    INTEGER NOT NULL CHECK (low_cents >= 0),
  likely_cents INTEGER NOT NULL CHECK (likely_cents >= low_cents),
  high_cents   INTEGER NOT NULL CHECK (high_cents >= likely_cents),
  available    INTEGER NOT NULL CHECK (available IN (0, 1)),
  PRIMARY KEY (item_id, position)
) STRICT, WITHOUT ROWID;

-- A row for each state that an item ever had, the current one too; `removed` ends it. Not tied to price_item: the
-- history of an item outlives the item.
CREATE TABLE price_history (
  item_key      TEXT    NOT NULL,
  revision      INTEGER NOT NULL CHECK (revision >= 1),
  book_revision INTEGER NOT NULL CHECK (book_revision >= 1),
  change        TEXT    NOT NULL CHECK (change IN ('added', 'changed', 'removed')),
  cause         TEXT    NOT NULL CHECK (cause IN ('edit', 'import', 'seed')),
  changed_at    TEXT    NOT NULL CHECK (changed_at GLOB '????-??-??T*Z'),
  kind          TEXT    NOT NULL,
  description   TEXT    NOT NULL,
  class         TEXT    NOT NULL,
  scope         TEXT    NOT NULL,
  category      TEXT    NOT NULL,
  unit          TEXT    NOT NULL,
  low           REAL    NOT NULL CHECK (low >= 0),
  likely        REAL    NOT NULL CHECK (likely >= low),
  high          REAL    NOT NULL CHECK (high >= likely),
  spec          TEXT    CHECK (spec IS NULL OR json_valid(spec)),
  offers        TEXT    NOT NULL CHECK (json_valid(offers) AND json_type(offers) = 'array'),
  trade         TEXT,
  date          TEXT    NOT NULL,
  region        TEXT    NOT NULL,
  source        TEXT    NOT NULL CHECK (source <> ''),
  supplier      TEXT,
  available     INTEGER NOT NULL CHECK (available IN (0, 1)),
  PRIMARY KEY (item_key, revision)
) STRICT, WITHOUT ROWID;
CREATE INDEX price_history_by_book ON price_history (book_revision);

CREATE TRIGGER price_history_is_never_rewritten BEFORE UPDATE ON price_history
BEGIN SELECT RAISE(ABORT, 'the history of prices is never rewritten'); END;
CREATE TRIGGER price_history_is_never_removed BEFORE DELETE ON price_history
BEGIN SELECT RAISE(ABORT, 'the history of prices is never removed'); END;

-- What a search looks through. It holds no text of its own: three triggers keep it in step.
CREATE VIRTUAL TABLE price_item_search USING fts5(
  key, description, category,
  content = 'price_item', content_rowid = 'id', tokenize = 'unicode61 remove_diacritics 2'
);
CREATE TRIGGER price_item_search_added AFTER INSERT ON price_item BEGIN
  INSERT INTO price_item_search (rowid, key, description, category)
  VALUES (new.id, new.key, new.description, new.category);
END;
CREATE TRIGGER price_item_search_removed AFTER DELETE ON price_item BEGIN
  INSERT INTO price_item_search (price_item_search, rowid, key, description, category)
  VALUES ('delete', old.id, old.key, old.description, old.category);
END;
CREATE TRIGGER price_item_search_changed AFTER UPDATE ON price_item BEGIN
  INSERT INTO price_item_search (price_item_search, rowid, key, description, category)
  VALUES ('delete', old.id, old.key, old.description, old.category);
  INSERT INTO price_item_search (rowid, key, description, category)
  VALUES (new.id, new.key, new.description, new.category);
END;

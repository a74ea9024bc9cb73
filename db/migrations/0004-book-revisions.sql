-- Says of every revision of the price book who made it, when, by what and why, so that a change of many items reads as
-- one change, and can be taken back as one. Revisions of an older data file are told from the history of the items.
CREATE TABLE book_revision (
  revision     INTEGER NOT NULL PRIMARY KEY CHECK (revision >= 1),
  cause        TEXT    NOT NULL CHECK (cause IN
    ('edit', 'import', 'seed', 'several', 'index', 'undo', 'restore', 'supplier-list')),
  changed_at   TEXT    NOT NULL CHECK (changed_at GLOB '????-??-??T*Z'),
  changed_by   TEXT    CHECK (changed_by <> ''),
  why          TEXT    CHECK (why <> ''),
  -- Of a change by an index: the category that it was of, the factor, and the day that it stands for.
  category     TEXT    CHECK (category <> ''),
  index_factor REAL    CHECK (index_factor > 0),
  index_on     TEXT    CHECK (index_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  -- Of a change that takes another one back: that one.
  undoes       INTEGER CHECK (undoes >= 1 AND undoes < revision),
  CHECK (cause <> 'index' OR (category IS NOT NULL AND index_factor IS NOT NULL AND index_on IS NOT NULL)),
  CHECK (cause <> 'undo' OR undoes IS NOT NULL)
) STRICT;

INSERT INTO book_revision (revision, cause, changed_at)
SELECT book_revision, min(cause), min(changed_at) FROM price_history GROUP BY book_revision;

CREATE TRIGGER book_revision_is_never_rewritten BEFORE UPDATE ON book_revision
BEGIN SELECT RAISE(ABORT, 'the history of the price book is never rewritten'); END;
CREATE TRIGGER book_revision_is_never_removed BEFORE DELETE ON book_revision
BEGIN SELECT RAISE(ABORT, 'the history of the price book is never removed'); END;

-- Quotes: what was offered to a customer, frozen with the estimate and the book's revision that it was made of, and the
-- hours and costs that the job then took. What was issued is never rewritten or removed; status and actuals move on, and
-- every state stays. And which states of a labor unit were learned from jobs: what is learned next starts from the one
-- before them, so that no job counts twice.
CREATE TABLE quote (
  sequence        INTEGER NOT NULL PRIMARY KEY,
  id              TEXT    NOT NULL UNIQUE CHECK (id <> ''),
  year            INTEGER NOT NULL CHECK (year BETWEEN 1000 AND 9999),
  number_in_year  INTEGER NOT NULL CHECK (number_in_year >= 1),
  revision        INTEGER NOT NULL CHECK (revision >= 1),
  project_id      TEXT    NOT NULL CHECK (project_id <> ''),
  revision_of     TEXT    REFERENCES quote (id),
  status          TEXT    NOT NULL CHECK (status IN ('issued', 'accepted', 'declined', 'withdrawn', 'lapsed')),
  issued_on       TEXT    NOT NULL CHECK (issued_on GLOB '????-??-??'),
  valid_until     TEXT    NOT NULL CHECK (valid_until GLOB '????-??-??' AND valid_until >= issued_on),
  book_revision   INTEGER NOT NULL CHECK (book_revision >= 0),
  title           TEXT    NOT NULL CHECK (title <> ''),
  option_label    TEXT    NOT NULL CHECK (option_label <> ''),
  customer_name   TEXT    NOT NULL CHECK (customer_name <> ''),
  total_cents     INTEGER NOT NULL CHECK (total_cents >= 0),
  cost_cents      INTEGER NOT NULL CHECK (cost_cents >= 0),
  stated          TEXT    NOT NULL CHECK (json_valid(stated) AND json_type(stated) = 'object'),
  issuer          TEXT    NOT NULL CHECK (json_valid(issuer) AND json_type(issuer) = 'object'),
  estimate        TEXT    NOT NULL CHECK (json_valid(estimate) AND json_type(estimate) = 'object'),
  quoted_tasks    TEXT    NOT NULL CHECK (json_valid(quoted_tasks) AND json_type(quoted_tasks) = 'array'),
  actuals         TEXT    CHECK (actuals IS NULL OR (json_valid(actuals) AND json_type(actuals) = 'object')),
  issued_at       TEXT    NOT NULL CHECK (issued_at GLOB '????-??-??T*Z'),
  updated_at      TEXT    NOT NULL CHECK (updated_at GLOB '????-??-??T*Z'),
  UNIQUE (year, number_in_year)
) STRICT;
CREATE INDEX quote_by_project ON quote (project_id);
CREATE INDEX quote_by_revised ON quote (revision_of);

CREATE TRIGGER quote_is_never_rewritten BEFORE UPDATE OF sequence, id, year, number_in_year, project_id, revision_of,
  issued_on, valid_until, book_revision, title, option_label, customer_name, total_cents, cost_cents, stated, issuer,
  estimate, quoted_tasks, issued_at ON quote
BEGIN SELECT RAISE(ABORT, 'a quote that was issued is never rewritten'); END;
CREATE TRIGGER quote_is_never_removed BEFORE DELETE ON quote
BEGIN SELECT RAISE(ABORT, 'a quote that was issued is never removed'); END;

CREATE TABLE quote_state (
  quote_id TEXT    NOT NULL REFERENCES quote (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  status   TEXT    NOT NULL,
  actuals  TEXT    CHECK (actuals IS NULL OR json_valid(actuals)),
  at       TEXT    NOT NULL CHECK (at GLOB '????-??-??T*Z'),
  PRIMARY KEY (quote_id, revision)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER quote_state_is_never_rewritten BEFORE UPDATE ON quote_state
BEGIN SELECT RAISE(ABORT, 'the history of quotes is never rewritten'); END;
CREATE TRIGGER quote_state_is_never_removed BEFORE DELETE ON quote_state
BEGIN SELECT RAISE(ABORT, 'the history of quotes is never removed'); END;

CREATE TABLE learned_state (
  item_key      TEXT    NOT NULL,
  item_revision INTEGER NOT NULL CHECK (item_revision >= 1),
  jobs          INTEGER NOT NULL CHECK (jobs >= 1),
  PRIMARY KEY (item_key, item_revision),
  FOREIGN KEY (item_key, item_revision) REFERENCES price_history (item_key, revision)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER learned_state_is_never_rewritten BEFORE UPDATE ON learned_state
BEGIN SELECT RAISE(ABORT, 'what was learned is never rewritten'); END;
CREATE TRIGGER learned_state_is_never_removed BEFORE DELETE ON learned_state
BEGIN SELECT RAISE(ABORT, 'what was learned is never removed'); END;

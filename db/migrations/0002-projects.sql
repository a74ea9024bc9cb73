-- Projects: the description as it was last valid, and beside it what the page holds half typed, so that nothing typed
-- is lost. A removed project stays for a while, so that it can be restored.
CREATE TABLE project (
  number      INTEGER NOT NULL PRIMARY KEY,
  id          TEXT    NOT NULL UNIQUE CHECK (id <> ''),
  revision    INTEGER NOT NULL CHECK (revision >= 1),
  title       TEXT    NOT NULL CHECK (title <> ''),
  description TEXT    CHECK (description IS NULL OR (json_valid(description) AND json_type(description) = 'object')),
  draft       TEXT    CHECK (draft IS NULL OR json_valid(draft)),
  archived    INTEGER NOT NULL CHECK (archived IN (0, 1)),
  created_at  TEXT    NOT NULL CHECK (created_at GLOB '????-??-??T*Z'),
  updated_at  TEXT    NOT NULL CHECK (updated_at GLOB '????-??-??T*Z'),
  deleted_at  TEXT    CHECK (deleted_at GLOB '????-??-??T*Z')
) STRICT;
CREATE INDEX project_by_update ON project (archived, updated_at);

CREATE VIRTUAL TABLE project_search USING fts5(
  title, content = 'project', content_rowid = 'number', tokenize = 'unicode61 remove_diacritics 2'
);
CREATE TRIGGER project_search_added AFTER INSERT ON project BEGIN
  INSERT INTO project_search (rowid, title) VALUES (new.number, new.title);
END;
CREATE TRIGGER project_search_removed AFTER DELETE ON project BEGIN
  INSERT INTO project_search (project_search, rowid, title) VALUES ('delete', old.number, old.title);
END;
CREATE TRIGGER project_search_changed AFTER UPDATE OF title ON project BEGIN
  INSERT INTO project_search (project_search, rowid, title) VALUES ('delete', old.number, old.title);
  INSERT INTO project_search (rowid, title) VALUES (new.number, new.title);
END;

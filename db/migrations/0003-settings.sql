-- Who prints the papers and the terms that new projects start with: one set for the data folder. And whether the
-- starting prices and the demo project were loaded, so that neither comes back to somebody who removed it.
CREATE TABLE settings (
  id       INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  content  TEXT    NOT NULL CHECK (json_valid(content) AND json_type(content) = 'object')
) STRICT;
INSERT INTO settings (id, revision, content) VALUES (1, 1, '{}');

CREATE TABLE seeding (
  id              INTEGER NOT NULL PRIMARY KEY CHECK (id = 1),
  seeded_at       TEXT    NOT NULL CHECK (seeded_at GLOB '????-??-??T*Z'),
  demo_project_id TEXT    NOT NULL
) STRICT;

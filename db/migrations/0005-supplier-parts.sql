-- Keeps which part of a supplier's list is which item of the book, so that the next list needs no second look.
-- `revision` counts the changes of one supplier's mapping, so that two people do not overwrite each other's.
CREATE TABLE supplier_mapping (
  supplier TEXT    NOT NULL PRIMARY KEY CHECK (supplier <> ''),
  revision INTEGER NOT NULL CHECK (revision >= 1)
) STRICT;

-- An item may be mapped before it is in the book or after it left: a list then says that it has none.
CREATE TABLE supplier_part (
  supplier TEXT NOT NULL REFERENCES supplier_mapping (supplier) ON DELETE CASCADE,
  part     TEXT NOT NULL CHECK (part <> ''),
  item_key TEXT NOT NULL CHECK (item_key <> ''),
  package  TEXT CHECK (package <> ''),
  PRIMARY KEY (supplier, part)
) STRICT, WITHOUT ROWID;

-- The day of a package's price where it is not its item's: who prices one package anew must not make the others look
-- fresh. And what a supplier calls the columns of a list, so that the next list needs no second look.
-- Only adds: packages of an older data file are of their item's day.
ALTER TABLE price_offer ADD COLUMN date TEXT CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]');

CREATE TABLE supplier_heading (
  supplier    TEXT NOT NULL REFERENCES supplier_mapping (supplier) ON DELETE CASCADE,
  column_name TEXT NOT NULL CHECK (column_name <> ''),
  heading     TEXT NOT NULL CHECK (heading <> ''),
  PRIMARY KEY (supplier, column_name)
) STRICT, WITHOUT ROWID;

-- Schema 3: the readings of one entry, found without looking at all.
--
-- To correct or take back a line, its readings are asked for by their entry. An index of every reading by
-- its entry would make a logger's file half as large again; only what people typed needs one.

CREATE TABLE reading_typed (              -- derived: the readings of entries that are no imports
  entry INTEGER NOT NULL REFERENCES entry,
  series INTEGER NOT NULL REFERENCES series,
  at INTEGER NOT NULL,                    -- instant
  PRIMARY KEY (entry, series, at)
) STRICT, WITHOUT ROWID;
INSERT INTO reading_typed (entry, series, at)
  SELECT entry, series, at FROM reading WHERE entry NOT IN (SELECT entry FROM import);

-- Schema 8: who a load came from and went to, and what the site measures with.
--
-- An inspector follows a load back to its supplier and a harvest on to its buyer, and asks when the
-- thermometer was last compared with something known.

ALTER TABLE movement ADD COLUMN supplier TEXT;  -- who brought it; NULL: not said
ALTER TABLE movement ADD COLUMN lot TEXT;  -- its lot, invoice or delivery note; NULL: not said
ALTER TABLE movement ADD COLUMN buyer TEXT;  -- who got it; NULL: not said

CREATE TABLE tool (                       -- a check of what the site measures with; a row a check
  name TEXT NOT NULL,                     -- 'probe-1'
  checked_day INTEGER NOT NULL,           -- day
  against TEXT NOT NULL,                  -- 'ice water: 33 F'
  entry INTEGER NOT NULL REFERENCES entry,
  PRIMARY KEY (name, checked_day)
) STRICT, WITHOUT ROWID;

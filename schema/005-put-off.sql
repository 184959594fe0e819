-- Schema 5: a job that was put off until a day.
--
-- It is hidden from the morning until then, and comes back by itself. What is urgent cannot be put off:
-- the morning shows it all the same.

CREATE TABLE put_off (
  batch INTEGER NOT NULL REFERENCES batch,
  rule TEXT NOT NULL,                     -- 'pile.turn'; '': whatever the batch wants
  until INTEGER NOT NULL,                 -- day on which it comes back
  entry INTEGER NOT NULL REFERENCES entry,
  PRIMARY KEY (batch, rule)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER put_off_changed AFTER UPDATE ON put_off BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'put_off',
    '{"batch":' || coalesce(OLD.batch, 'null') ||
    ',"rule":' || coalesce('"' || replace(replace(OLD.rule, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"until":' || coalesce(OLD.until, 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"batch":' || coalesce(NEW.batch, 'null') ||
    ',"rule":' || coalesce('"' || replace(replace(NEW.rule, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"until":' || coalesce(NEW.until, 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER put_off_taken_back AFTER DELETE ON put_off BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'put_off',
    '{"batch":' || coalesce(OLD.batch, 'null') ||
    ',"rule":' || coalesce('"' || replace(replace(OLD.rule, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"until":' || coalesce(OLD.until, 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;

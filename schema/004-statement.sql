-- Schema 4: what a supplier states of the treatment of a material.
--
-- Compost that is bought counts as raw manure until its treatment is on record (7 CFR 205.203(c)(2)); the
-- supplier's statement is that record, and whoever asks sees its words.

ALTER TABLE material ADD COLUMN statement TEXT NOT NULL DEFAULT '';  -- '': none is on record

DROP TRIGGER material_changed;
DROP TRIGGER material_taken_back;
CREATE TRIGGER material_changed AFTER UPDATE ON material BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'material',
    '{"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"material_group":' || coalesce('"' || replace(replace(OLD.material_group, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"aliases":' || coalesce('"' || replace(replace(OLD.aliases, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"flags":' || coalesce('"' || replace(replace(OLD.flags, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"statement":' || coalesce('"' || replace(replace(OLD.statement, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    '{"name":' || coalesce('"' || replace(replace(NEW.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"material_group":' || coalesce('"' || replace(replace(NEW.material_group, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"aliases":' || coalesce('"' || replace(replace(NEW.aliases, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"flags":' || coalesce('"' || replace(replace(NEW.flags, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"statement":' || coalesce('"' || replace(replace(NEW.statement, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(NEW.entry, 'null') || '}');
END;
CREATE TRIGGER material_taken_back AFTER DELETE ON material BEGIN
  INSERT INTO journal (entry, table_name, before, after) VALUES (
    (SELECT entry FROM pen), 'material',
    '{"name":' || coalesce('"' || replace(replace(OLD.name, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"material_group":' || coalesce('"' || replace(replace(OLD.material_group, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"aliases":' || coalesce('"' || replace(replace(OLD.aliases, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"flags":' || coalesce('"' || replace(replace(OLD.flags, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"statement":' || coalesce('"' || replace(replace(OLD.statement, '\', '\\'), '"', '\"') || '"', 'null') ||
    ',"entry":' || coalesce(OLD.entry, 'null') || '}',
    NULL);
END;

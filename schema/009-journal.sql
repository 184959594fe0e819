-- Schema 9: the journal's triggers are no longer in the file.
--
-- A connection that is about to change rows makes them for itself (src/book/file/journal.h), from the tables
-- as they are. In the file they were seven tenths of the schema's text, which every command reads.

DROP TRIGGER batch_changed;
DROP TRIGGER batch_taken_back;
DROP TRIGGER container_changed;
DROP TRIGGER container_taken_back;
DROP TRIGGER deed_changed;
DROP TRIGGER deed_taken_back;
DROP TRIGGER figure_changed;
DROP TRIGGER figure_taken_back;
DROP TRIGGER mapping_changed;
DROP TRIGGER mapping_taken_back;
DROP TRIGGER material_changed;
DROP TRIGGER material_taken_back;
DROP TRIGGER movement_changed;
DROP TRIGGER movement_taken_back;
DROP TRIGGER note_changed;
DROP TRIGGER note_taken_back;
DROP TRIGGER photo_changed;
DROP TRIGGER photo_taken_back;
DROP TRIGGER place_changed;
DROP TRIGGER place_taken_back;
DROP TRIGGER put_off_changed;
DROP TRIGGER put_off_taken_back;
DROP TRIGGER reading_changed;
DROP TRIGGER reading_taken_back;
DROP TRIGGER rule_changed;
DROP TRIGGER rule_taken_back;
DROP TRIGGER setting_changed;
DROP TRIGGER setting_taken_back;

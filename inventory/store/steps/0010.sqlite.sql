-- Step 10, triggers in SQLite's words. Statements are separated by blank lines.

CREATE TRIGGER tags_passed_stand BEFORE UPDATE OF id, board, serial ON tags_passed BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER tags_passed_stay BEFORE DELETE ON tags_passed BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER tags_passed_again BEFORE INSERT ON tags_passed
WHEN EXISTS (SELECT 1 FROM tags_passed WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

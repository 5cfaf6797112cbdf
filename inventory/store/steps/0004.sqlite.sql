-- Step 4, triggers in SQLite's words. Statements are separated by blank lines.

CREATE TRIGGER spoiled_pieces_stand BEFORE UPDATE OF id, cutting, place, reason ON spoiled_pieces
BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER spoiled_pieces_stay BEFORE DELETE ON spoiled_pieces BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER spoiled_pieces_again BEFORE INSERT ON spoiled_pieces
WHEN EXISTS (SELECT 1 FROM spoiled_pieces WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

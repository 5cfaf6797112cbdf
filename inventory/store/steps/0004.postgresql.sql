-- Step 4, triggers in PostgreSQL's words. Statements are separated by blank lines.

CREATE TRIGGER spoiled_pieces_stand BEFORE UPDATE OF id, cutting, place, reason ON spoiled_pieces
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER spoiled_pieces_stay BEFORE DELETE ON spoiled_pieces
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

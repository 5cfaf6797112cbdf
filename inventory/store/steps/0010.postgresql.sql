-- Step 10, triggers in PostgreSQL's words. Statements are separated by blank lines.

CREATE TRIGGER tags_passed_stand BEFORE UPDATE OF id, board, serial ON tags_passed
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER tags_passed_stay BEFORE DELETE ON tags_passed
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

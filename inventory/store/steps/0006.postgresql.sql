-- Step 6, triggers in PostgreSQL's words. Statements are separated by blank lines.

CREATE TRIGGER layups_sealed BEFORE INSERT ON layups
  FOR EACH ROW EXECUTE FUNCTION refuse_sealed_piece();

CREATE TRIGGER layups_stand BEFORE UPDATE OR DELETE ON layups
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

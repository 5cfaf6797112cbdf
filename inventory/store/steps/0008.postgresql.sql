-- Step 8, triggers in PostgreSQL's words. Statements are separated by blank lines.

CREATE TRIGGER bins_stand BEFORE UPDATE OF id, name, species, note ON bins
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER bins_stay BEFORE DELETE ON bins
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

-- Step 11, triggers in PostgreSQL's words. Statements are separated by blank lines.

CREATE TRIGGER reserved_feet_stand BEFORE UPDATE OF id, job, species, nominal, nominal_in, feet
  ON reserved_feet
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER reserved_feet_stay BEFORE DELETE ON reserved_feet
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

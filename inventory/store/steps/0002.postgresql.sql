-- Step 2, triggers in PostgreSQL's words. Statements are separated by blank lines.

CREATE TRIGGER own_species_stand BEFORE UPDATE OF id, name, botanical, gravity, radial, tangential,
  radial_shrinkage, tangential_shrinkage, volumetric_shrinkage, source ON own_species
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER own_species_stay BEFORE DELETE ON own_species
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

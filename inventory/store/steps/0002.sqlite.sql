-- Step 2, triggers in SQLite's words. Statements are separated by blank lines.

CREATE TRIGGER own_species_stand BEFORE UPDATE OF id, name, botanical, gravity, radial, tangential,
  radial_shrinkage, tangential_shrinkage, volumetric_shrinkage, source ON own_species BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER own_species_stay BEFORE DELETE ON own_species BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

CREATE TRIGGER own_species_again BEFORE INSERT ON own_species
WHEN EXISTS (SELECT 1 FROM own_species WHERE id = NEW.id) BEGIN
  SELECT RAISE(ABORT, 'past_changed');
END;

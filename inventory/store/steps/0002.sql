-- Step 2. Statements are separated by blank lines; units as in step 1.

-- Species as the maker knows them: the newest row of a name that stands holds; what it leaves open
-- the program's own table says. Rows are never changed, only withdrawn.
-- gravity: thousandths, ovendry mass over volume at 12 % moisture; radial, tangential: change per
-- point of moisture in hundred-thousandths; shrinkage: hundredths of a per cent, green to ovendry.

CREATE TABLE own_species (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL REFERENCES species (name),
  botanical TEXT NOT NULL,
  gravity INTEGER CHECK (gravity > 0),
  radial INTEGER CHECK (radial > 0),
  tangential INTEGER CHECK (tangential > 0),
  radial_shrinkage INTEGER CHECK (radial_shrinkage > 0),
  tangential_shrinkage INTEGER CHECK (tangential_shrinkage > 0),
  volumetric_shrinkage INTEGER CHECK (volumetric_shrinkage > 0),
  source TEXT NOT NULL,
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

INSERT INTO counters (name, last) VALUES ('species', 0);

INSERT INTO events (name) VALUES ('species added');

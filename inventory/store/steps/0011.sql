-- Step 11. Statements are separated by blank lines; units as in step 1.

-- What wood all blanks of a copy come from, sisters now being one answer; and the group of parts
-- that comes from it together.

ALTER TABLE parts ADD COLUMN wood_together TEXT NOT NULL DEFAULT 'any'
  CHECK (wood_together IN ('any', 'log', 'board', 'sisters'));

UPDATE parts SET wood_together = wood_from;

ALTER TABLE parts DROP COLUMN wood_from;

ALTER TABLE parts ADD COLUMN grouped TEXT NOT NULL DEFAULT '';

-- Board feet of one wood kept for a job before its boards are chosen: of a job and wood the newest
-- row that stands holds, none where it says 0. Rows are never changed, only withdrawn.

CREATE TABLE reserved_feet (
  id INTEGER PRIMARY KEY,
  job INTEGER NOT NULL REFERENCES jobs (id),
  species TEXT NOT NULL REFERENCES species (name),
  nominal INTEGER NOT NULL CHECK (nominal > 0),
  nominal_in TEXT NOT NULL CHECK (nominal_in IN ('quarters', 'mm')),
  feet INTEGER NOT NULL CHECK (feet >= 0),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE INDEX reserved_feet_of_jobs ON reserved_feet (job);

INSERT INTO counters (name, last) VALUES ('reserved feet', 0);

INSERT INTO events (name) VALUES ('set aside');

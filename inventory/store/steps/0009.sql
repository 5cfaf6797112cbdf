-- Step 9: what a job is worth. Statements are separated by blank lines; units as in step 1.

-- What stock costs to buy again, from a day on. `grade` empty: of every grade without a row of its
-- own. Rows are never changed, only withdrawn.

CREATE TABLE replacement_prices (
  id INTEGER PRIMARY KEY,
  species TEXT NOT NULL REFERENCES species (name),
  nominal INTEGER NOT NULL CHECK (nominal > 0),
  nominal_in TEXT NOT NULL CHECK (nominal_in IN ('quarters', 'mm')),
  grade TEXT NOT NULL,
  per_foot INTEGER NOT NULL CHECK (per_foot >= 0),
  since TEXT NOT NULL,
  note TEXT NOT NULL,
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

-- What a job costs beside its lumber: the newest bill that stands holds. Rows are never changed.
-- `thousandths`: how many; `length`: of a bar sold or of a piece cut from it.

CREATE TABLE job_bills (
  id INTEGER PRIMARY KEY,
  job INTEGER NOT NULL REFERENCES jobs (id),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE INDEX bills_of_jobs ON job_bills (job);

CREATE TABLE job_line_kinds (name TEXT PRIMARY KEY) STRICT;

INSERT INTO job_line_kinds (name) VALUES
  ('hardware'), ('sheet'), ('glue'), ('finish'), ('other'), ('hours'), ('bar'), ('cut');

CREATE TABLE job_lines (
  bill INTEGER NOT NULL REFERENCES job_bills (id),
  line INTEGER NOT NULL CHECK (line > 0),
  kind TEXT NOT NULL REFERENCES job_line_kinds (name),
  name TEXT NOT NULL,
  thousandths INTEGER NOT NULL CHECK (thousandths > 0),
  unit TEXT NOT NULL,
  price INTEGER CHECK (price >= 0),
  length INTEGER NOT NULL CHECK (length >= 0),
  note TEXT NOT NULL,
  PRIMARY KEY (bill, line)
) STRICT, WITHOUT ROWID;

-- Quotes as they were given. Rows are never changed, only withdrawn.

CREATE TABLE quotes (
  id INTEGER PRIMARY KEY,
  job INTEGER NOT NULL REFERENCES jobs (id),
  number TEXT NOT NULL,
  given_on TEXT NOT NULL,
  valid_until TEXT NOT NULL,
  title TEXT NOT NULL,
  words TEXT NOT NULL,
  terms TEXT NOT NULL,
  price INTEGER NOT NULL CHECK (price >= 0),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE INDEX quotes_of_jobs ON quotes (job);

-- Sizes a job names, and parts' sizes as typed where they are arithmetic over them.

CREATE TABLE sizes (
  job INTEGER NOT NULL REFERENCES jobs (id),
  line INTEGER NOT NULL CHECK (line > 0),
  name TEXT NOT NULL,
  expression TEXT NOT NULL,
  value INTEGER NOT NULL,
  PRIMARY KEY (job, line),
  UNIQUE (job, name)
) STRICT;

ALTER TABLE parts ADD COLUMN length_typed TEXT NOT NULL DEFAULT '';

ALTER TABLE parts ADD COLUMN width_typed TEXT NOT NULL DEFAULT '';

ALTER TABLE parts ADD COLUMN thickness_typed TEXT NOT NULL DEFAULT '';

-- Whether all that one copy is glued up of comes from one log or one board.

ALTER TABLE parts ADD COLUMN wood_from TEXT NOT NULL DEFAULT 'any'
  CHECK (wood_from IN ('any', 'log', 'board'));

INSERT INTO counters (name, last) VALUES ('price', 0), ('bill', 0), ('quote', 0);

INSERT INTO events (name) VALUES ('prices set'), ('bill set'), ('quoted');

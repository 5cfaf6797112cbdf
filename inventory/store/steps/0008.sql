-- Step 8. Statements are separated by blank lines; units as in step 1.

-- Bins of untagged shorts, one for each species. What lies in one is known by its volume alone: it
-- carries no money, since the job it fell from has paid for it. Rows are never changed, only
-- withdrawn.

CREATE TABLE bins (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  species TEXT NOT NULL REFERENCES species (name),
  note TEXT NOT NULL,
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE UNIQUE INDEX one_bin_a_species ON bins (species) WHERE withdrawn = 0;

CREATE UNIQUE INDEX one_bin_a_name ON bins (name) WHERE withdrawn = 0;

ALTER TABLE accounts ADD COLUMN bin INTEGER REFERENCES bins (id)
  CONSTRAINT bin_balance CHECK ((kind = 'bin') = (bin IS NOT NULL)
    AND (bin IS NULL OR (volume >= 0 AND cost = 0)));

DROP INDEX one_account_a_cause;

CREATE UNIQUE INDEX one_account_a_cause ON accounts (kind) WHERE board IS NULL AND bin IS NULL;

CREATE UNIQUE INDEX one_account_a_bin ON accounts (bin) WHERE bin IS NOT NULL;

-- A remainder that went to a bin when its board was sawn.

ALTER TABLE pieces ADD COLUMN bin INTEGER REFERENCES bins (id)
  CONSTRAINT binned_offcut CHECK (bin IS NULL OR (kind = 'offcut' AND became IS NULL));

INSERT INTO counters (name, last) VALUES ('bin', 0);

INSERT INTO causes (name) VALUES ('bin');

INSERT INTO events (name) VALUES ('bin added'), ('bin changed');

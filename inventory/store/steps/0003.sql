-- Step 3: deliveries in full, and what happens to a board besides sawing. Statements are separated
-- by blank lines; units as in step 1.

-- How suppliers count: a table now, since rules grow.

CREATE TABLE counting_rules (name TEXT PRIMARY KEY) STRICT;

INSERT INTO counting_rules (name) VALUES
  ('surface'), ('volume'), ('tenths'), ('half inch'), ('gross green');

ALTER TABLE book ADD COLUMN counting TEXT NOT NULL DEFAULT 'surface'
  REFERENCES counting_rules (name);

UPDATE book SET counting = rule;

ALTER TABLE book DROP COLUMN rule;

ALTER TABLE book RENAME COLUMN counting TO rule;

ALTER TABLE suppliers ADD COLUMN counting TEXT NOT NULL DEFAULT 'surface'
  REFERENCES counting_rules (name);

UPDATE suppliers SET counting = rule;

ALTER TABLE suppliers DROP COLUMN rule;

ALTER TABLE suppliers RENAME COLUMN counting TO rule;

ALTER TABLE deliveries ADD COLUMN counting TEXT NOT NULL DEFAULT 'surface'
  REFERENCES counting_rules (name);

UPDATE deliveries SET counting = rule;

ALTER TABLE deliveries DROP COLUMN rule;

ALTER TABLE deliveries RENAME COLUMN counting TO rule;

-- How a board was priced, as its tally said; not known of boards received before, nor of offcuts.
-- `unit_price`: of one of `price_basis`. `billed_with`: the first of the boards that share one
-- price, be they halves of one board or a lot.

CREATE TABLE price_bases (name TEXT PRIMARY KEY) STRICT;

INSERT INTO price_bases (name) VALUES
  ('foot'), ('each'), ('cubic metre'), ('running foot'), ('lot');

ALTER TABLE boards ADD COLUMN price_basis TEXT REFERENCES price_bases (name);

ALTER TABLE boards ADD COLUMN unit_price INTEGER CHECK (unit_price >= 0);

ALTER TABLE boards ADD COLUMN billed_with INTEGER REFERENCES boards (id);

-- What an invoice asks besides its boards, spread over them; a discount is below zero.

CREATE TABLE invoice_kinds (name TEXT PRIMARY KEY) STRICT;

INSERT INTO invoice_kinds (name) VALUES
  ('freight'), ('tax'), ('surfacing'), ('discount'), ('other'), ('difference');

CREATE TABLE invoice_lines (
  delivery INTEGER NOT NULL REFERENCES deliveries (id),
  line INTEGER NOT NULL CHECK (line > 0),
  kind TEXT NOT NULL REFERENCES invoice_kinds (name),
  amount INTEGER NOT NULL,
  spread TEXT NOT NULL CHECK (spread IN ('feet', 'value')),
  note TEXT NOT NULL,
  PRIMARY KEY (delivery, line)
) STRICT;

-- What an invoice claims: of one species and thickness, or of all its boards where they are null.

CREATE TABLE invoice_claims (
  delivery INTEGER NOT NULL REFERENCES deliveries (id),
  line INTEGER NOT NULL CHECK (line > 0),
  species TEXT REFERENCES species (name),
  nominal INTEGER CHECK (nominal > 0),
  nominal_in TEXT CHECK (nominal_in IN ('quarters', 'mm')),
  feet INTEGER CHECK (feet >= 0),
  amount INTEGER CHECK (amount >= 0),
  PRIMARY KEY (delivery, line),
  CHECK ((species IS NULL) = (nominal IS NULL)),
  CHECK ((nominal IS NULL) = (nominal_in IS NULL)),
  CHECK (feet IS NOT NULL OR amount IS NOT NULL)
) STRICT;

-- Boards sent back, and the credit that came for them. Rows are never changed, only withdrawn.

CREATE TABLE returns (
  id INTEGER PRIMARY KEY,
  board INTEGER NOT NULL REFERENCES boards (id),
  reason TEXT NOT NULL,
  expected INTEGER NOT NULL CHECK (expected >= 0),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE INDEX returns_of_boards ON returns (board);

CREATE TABLE credits (
  id INTEGER PRIMARY KEY,
  returned INTEGER NOT NULL REFERENCES returns (id),
  amount INTEGER NOT NULL CHECK (amount >= 0),
  received_on TEXT NOT NULL,
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE INDEX credits_of_returns ON credits (returned);

-- A bay counted by its tags. `untagged`: pieces that lay there without one.

CREATE TABLE bay_counts (
  id INTEGER PRIMARY KEY,
  bay TEXT NOT NULL REFERENCES bays (name),
  untagged INTEGER NOT NULL CHECK (untagged >= 0),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE TABLE bay_count_lines (
  count_of INTEGER NOT NULL REFERENCES bay_counts (id),
  board INTEGER NOT NULL REFERENCES boards (id),
  found TEXT NOT NULL CHECK (found IN ('seen', 'missing', 'unexpected')),
  PRIMARY KEY (count_of, board)
) STRICT, WITHOUT ROWID;

-- A bay's own tag: its id is the serial.

CREATE TABLE bay_tags (
  id INTEGER PRIMARY KEY CHECK (id > 0),
  bay TEXT NOT NULL REFERENCES bays (name),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE UNIQUE INDEX one_tag_a_bay ON bay_tags (bay) WHERE withdrawn = 0;

-- A tag that was replaced hangs on no board again and says which tag took its place.

ALTER TABLE tags ADD COLUMN replaced_by INTEGER REFERENCES tags (serial);

INSERT INTO counters (name, last) VALUES
  ('return', 0), ('credit', 0), ('bay count', 0), ('bay tag', 0);

INSERT INTO events (name) VALUES
  ('returned'), ('credited'), ('counted'), ('moved'), ('retired'), ('noted'), ('kept back'),
  ('let go'), ('reading taken'), ('tag replaced'), ('bay tagged');

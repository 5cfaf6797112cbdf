-- Step 1: the first book. SQLite's dialect; the step runner turns INTEGER, REAL, BLOB, STRICT and
-- WITHOUT ROWID into PostgreSQL's. Statements are separated by blank lines.
-- Lengths nm, volumes cubic mm, money ten-thousandths, moisture tenths of a per cent, board feet
-- thousandths; times UTC to the millisecond. Every id comes from `counters` inside the transaction.

CREATE TABLE book (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  name TEXT NOT NULL,
  unit TEXT NOT NULL CHECK (unit IN ('inches', 'millimetres')),
  sign TEXT NOT NULL,
  rule TEXT NOT NULL CHECK (rule IN ('surface', 'volume')),
  made_at TEXT NOT NULL,
  program TEXT NOT NULL
) STRICT;

CREATE TABLE schema_steps (
  number INTEGER PRIMARY KEY,
  sha256 TEXT NOT NULL,
  applied_at TEXT NOT NULL,
  program TEXT NOT NULL
) STRICT;

CREATE TABLE counters (
  name TEXT PRIMARY KEY,
  last INTEGER NOT NULL CHECK (last >= 0)
) STRICT;

-- Lookups that grow: a new one is a row, never a wider CHECK.

CREATE TABLE events (name TEXT PRIMARY KEY) STRICT;

CREATE TABLE causes (name TEXT PRIMARY KEY) STRICT;

CREATE TABLE species (name TEXT PRIMARY KEY) STRICT;

CREATE TABLE grades (name TEXT PRIMARY KEY) STRICT;

CREATE TABLE bays (name TEXT PRIMARY KEY) STRICT;

CREATE TABLE defect_kinds (
  name TEXT PRIMARY KEY,
  rank INTEGER NOT NULL,
  letter TEXT UNIQUE,
  sound INTEGER NOT NULL CHECK (sound IN (0, 1))
) STRICT;

CREATE TABLE suppliers (
  name TEXT PRIMARY KEY,
  rule TEXT NOT NULL CHECK (rule IN ('surface', 'volume'))
) STRICT;

-- The journal. An entry needs its seal before it can be committed; the seal posts its moves.

CREATE TABLE seals (entry INTEGER PRIMARY KEY) STRICT;

CREATE TABLE entries (
  id INTEGER PRIMARY KEY REFERENCES seals (entry) DEFERRABLE INITIALLY DEFERRED,
  at TEXT NOT NULL,
  hand TEXT NOT NULL,
  station TEXT NOT NULL,
  event TEXT NOT NULL REFERENCES events (name),
  note TEXT NOT NULL,
  reverses INTEGER UNIQUE REFERENCES entries (id),
  CONSTRAINT only_earlier_reversed CHECK (reverses < id)
) STRICT;

CREATE TABLE edits (
  entry INTEGER NOT NULL REFERENCES entries (id),
  line INTEGER NOT NULL,
  record TEXT NOT NULL,
  id INTEGER NOT NULL,
  before TEXT,
  after TEXT,
  PRIMARY KEY (entry, line),
  CHECK (before IS NOT NULL OR after IS NOT NULL)
) STRICT;

-- Settings documents are kept as they were: a stored plan must find the profile it used. The
-- profile a book starts with belongs to no entry.

CREATE TABLE profiles (
  id INTEGER PRIMARY KEY,
  body TEXT NOT NULL,
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER REFERENCES entries (id)
) STRICT;

CREATE TABLE deliveries (
  id INTEGER PRIMARY KEY,
  supplier TEXT NOT NULL REFERENCES suppliers (name),
  reference TEXT NOT NULL,
  received_on TEXT NOT NULL,
  rule TEXT NOT NULL CHECK (rule IN ('surface', 'volume')),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE TABLE boards (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('plank', 'slab', 'offcut')),
  species TEXT NOT NULL REFERENCES species (name),
  grade TEXT REFERENCES grades (name),
  nominal INTEGER NOT NULL CHECK (nominal > 0),
  nominal_in TEXT NOT NULL CHECK (nominal_in IN ('quarters', 'mm')),
  thickness INTEGER NOT NULL CHECK (thickness > 0),
  measured INTEGER NOT NULL CHECK (measured IN (0, 1)),
  bow INTEGER NOT NULL CHECK (bow >= 0),
  crook INTEGER NOT NULL CHECK (crook >= 0),
  cup INTEGER NOT NULL CHECK (cup >= 0),
  twist INTEGER NOT NULL CHECK (twist >= 0),
  bent_at INTEGER CHECK (bent_at >= 0),
  hollow TEXT NOT NULL CHECK (hollow IN ('near', 'far')),
  log TEXT NOT NULL,
  place_in_log INTEGER NOT NULL,
  delivery INTEGER REFERENCES deliveries (id),
  billed_feet INTEGER NOT NULL CHECK (billed_feet >= 0),
  measured_feet INTEGER NOT NULL CHECK (measured_feet >= 0),
  half TEXT NOT NULL CHECK (half IN ('none', 'up', 'down')),
  price INTEGER NOT NULL,
  bay TEXT REFERENCES bays (name),
  kept_back INTEGER NOT NULL CHECK (kept_back IN (0, 1)),
  parent INTEGER REFERENCES boards (id),
  parent_x INTEGER NOT NULL,
  parent_y INTEGER NOT NULL,
  parent_dx INTEGER NOT NULL,
  parent_dy INTEGER NOT NULL,
  sawn_tag_end INTEGER NOT NULL CHECK (sawn_tag_end IN (0, 1)),
  sawn_far_end INTEGER NOT NULL CHECK (sawn_far_end IN (0, 1)),
  note TEXT NOT NULL,
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id),
  CONSTRAINT only_offcuts_have_a_parent CHECK (parent IS NULL OR kind = 'offcut')
) STRICT;

CREATE INDEX boards_of_deliveries ON boards (delivery);

CREATE TABLE faces (
  board INTEGER NOT NULL REFERENCES boards (id),
  face TEXT NOT NULL CHECK (face IN ('A', 'B')),
  looked TEXT NOT NULL CHECK (looked IN ('no', 'rough', 'planed')),
  PRIMARY KEY (board, face)
) STRICT, WITHOUT ROWID;

CREATE TABLE outlines (
  board INTEGER NOT NULL REFERENCES boards (id),
  face TEXT NOT NULL CHECK (face IN ('A', 'B')),
  x INTEGER NOT NULL CHECK (x >= 0),
  near INTEGER NOT NULL,
  far INTEGER NOT NULL,
  PRIMARY KEY (board, face, x),
  CHECK (near < far)
) STRICT, WITHOUT ROWID;

CREATE TABLE defects (
  board INTEGER NOT NULL REFERENCES boards (id),
  line INTEGER NOT NULL,
  kind TEXT NOT NULL REFERENCES defect_kinds (name),
  face TEXT NOT NULL CHECK (face IN ('A', 'B', 'through', 'near', 'far')),
  x INTEGER NOT NULL,
  y INTEGER NOT NULL,
  dx INTEGER NOT NULL CHECK (dx > 0),
  dy INTEGER NOT NULL CHECK (dy > 0),
  PRIMARY KEY (board, line)
) STRICT, WITHOUT ROWID;

CREATE TABLE readings (
  board INTEGER NOT NULL REFERENCES boards (id),
  taken_on TEXT NOT NULL,
  moisture INTEGER NOT NULL CHECK (moisture >= 0),
  state TEXT NOT NULL CHECK (state IN ('wet', 'resting', 'ready')),
  PRIMARY KEY (board, taken_on)
) STRICT, WITHOUT ROWID;

-- Which board carries a serial today: blank rolls, replaced and lost tags. `reserved_in`: the entry
-- that took the serial.

CREATE TABLE tags (
  serial INTEGER PRIMARY KEY CHECK (serial > 0),
  board INTEGER UNIQUE REFERENCES boards (id),
  reserved_in INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE TABLE jobs (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  customer TEXT NOT NULL,
  profile INTEGER NOT NULL REFERENCES profiles (id),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE UNIQUE INDEX names_of_jobs ON jobs (name) WHERE withdrawn = 0;

-- After `jobs`, since a job's version is an entry and an entry may belong to a job.

ALTER TABLE entries ADD COLUMN job INTEGER REFERENCES jobs (id);

CREATE TABLE parts (
  job INTEGER NOT NULL REFERENCES jobs (id),
  line INTEGER NOT NULL CHECK (line > 0),
  name TEXT NOT NULL,
  copies INTEGER NOT NULL CHECK (copies > 0),
  spares INTEGER NOT NULL CHECK (spares >= 0),
  length INTEGER NOT NULL CHECK (length > 0),
  width INTEGER NOT NULL CHECK (width > 0),
  thickness INTEGER NOT NULL CHECK (thickness > 0),
  face_a TEXT NOT NULL,
  face_b TEXT NOT NULL,
  edge_front TEXT NOT NULL,
  edge_back TEXT NOT NULL,
  recipe TEXT NOT NULL,
  note TEXT NOT NULL,
  PRIMARY KEY (job, line)
) STRICT;

CREATE TABLE part_species (
  job INTEGER NOT NULL,
  line INTEGER NOT NULL,
  rank INTEGER NOT NULL,
  species TEXT NOT NULL REFERENCES species (name),
  PRIMARY KEY (job, line, rank),
  UNIQUE (job, line, species),
  FOREIGN KEY (job, line) REFERENCES parts (job, line)
) STRICT;

CREATE TABLE plans (
  id INTEGER PRIMARY KEY,
  job INTEGER NOT NULL REFERENCES jobs (id),
  profile INTEGER NOT NULL REFERENCES profiles (id),
  choices TEXT NOT NULL,
  tick INTEGER NOT NULL CHECK (tick > 0),
  wood_cost INTEGER NOT NULL,
  cut_cost INTEGER NOT NULL,
  offcut_worth INTEGER NOT NULL,
  shortage_cost INTEGER NOT NULL,
  bound INTEGER NOT NULL,
  bound_kind TEXT NOT NULL CHECK (bound_kind IN ('none', 'area', 'relaxed', 'exact')),
  ending TEXT NOT NULL
    CHECK (ending IN ('closed', 'good enough', 'time up', 'effort spent', 'stopped')),
  hand_rule INTEGER NOT NULL,
  careful_hand INTEGER NOT NULL,
  seed INTEGER NOT NULL,
  effort INTEGER NOT NULL,
  program TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entries (id),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  version INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

CREATE INDEX plans_of_jobs ON plans (job);

CREATE TABLE plan_shorts (
  plan INTEGER NOT NULL REFERENCES plans (id),
  place INTEGER NOT NULL,
  line INTEGER NOT NULL,
  copies INTEGER NOT NULL,
  unseen_only INTEGER NOT NULL CHECK (unseen_only IN (0, 1)),
  reason TEXT NOT NULL,
  PRIMARY KEY (plan, place)
) STRICT;

CREATE TABLE plan_waiting (
  plan INTEGER NOT NULL REFERENCES plans (id),
  place INTEGER NOT NULL,
  line INTEGER NOT NULL,
  PRIMARY KEY (plan, place)
) STRICT;

-- Planned while `entry` is null, done when it is set.

CREATE TABLE cuttings (
  id INTEGER PRIMARY KEY,
  board INTEGER NOT NULL REFERENCES boards (id),
  plan INTEGER NOT NULL REFERENCES plans (id),
  entry INTEGER REFERENCES entries (id)
) STRICT;

CREATE UNIQUE INDEX planned_once ON cuttings (plan, board) WHERE entry IS NULL;

CREATE UNIQUE INDEX done_once ON cuttings (entry, board) WHERE entry IS NOT NULL;

CREATE INDEX cuttings_of_boards ON cuttings (board);

-- A cut tree: preorder and depth.

CREATE TABLE pieces (
  cutting INTEGER NOT NULL REFERENCES cuttings (id),
  place INTEGER NOT NULL CHECK (place >= 0),
  depth INTEGER NOT NULL CHECK (depth >= 0),
  kind TEXT NOT NULL CHECK (kind IN ('cut', 'blank', 'offcut', 'kerf', 'end trim', 'unusable')),
  x INTEGER NOT NULL,
  y INTEGER NOT NULL,
  dx INTEGER NOT NULL,
  dy INTEGER NOT NULL,
  face_up TEXT NOT NULL CHECK (face_up IN ('A', 'B')),
  front_edge TEXT NOT NULL CHECK (front_edge IN ('near', 'far')),
  line INTEGER NOT NULL,
  copy INTEGER NOT NULL,
  became INTEGER REFERENCES boards (id),
  PRIMARY KEY (cutting, place),
  CHECK (became IS NULL OR kind = 'offcut')
) STRICT, WITHOUT ROWID;

-- A board is held for one job only: its key is the board.

CREATE TABLE holds (
  board INTEGER PRIMARY KEY REFERENCES boards (id),
  job INTEGER NOT NULL REFERENCES jobs (id),
  plan INTEGER REFERENCES plans (id),
  entry INTEGER NOT NULL REFERENCES entries (id)
) STRICT;

-- Double entry by shape: a move takes out of one account what it puts into another. A board's
-- account holds all of its wood or none, and no money without wood. `remeasured_volume` becomes its
-- whole volume with the seal of the entry that measured it again.

CREATE TABLE accounts (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL REFERENCES causes (name),
  board INTEGER UNIQUE REFERENCES boards (id),
  whole_volume INTEGER NOT NULL CHECK (whole_volume >= 0),
  remeasured_volume INTEGER CHECK (remeasured_volume >= 0),
  volume INTEGER NOT NULL,
  cost INTEGER NOT NULL,
  CONSTRAINT board_account CHECK ((kind = 'board') = (board IS NOT NULL)),
  CONSTRAINT board_balance CHECK (kind <> 'board'
    OR (volume IN (0, whole_volume) AND cost >= 0 AND (volume > 0 OR cost = 0)))
) STRICT;

CREATE UNIQUE INDEX one_account_a_cause ON accounts (kind) WHERE board IS NULL;

CREATE INDEX boards_on_the_rack ON accounts (board) WHERE volume > 0;

CREATE TABLE moves (
  entry INTEGER NOT NULL REFERENCES entries (id),
  line INTEGER NOT NULL,
  source INTEGER NOT NULL REFERENCES accounts (id),
  target INTEGER NOT NULL REFERENCES accounts (id),
  volume INTEGER NOT NULL CHECK (volume >= 0),
  cost INTEGER NOT NULL CHECK (cost >= 0),
  cutting INTEGER REFERENCES cuttings (id),
  place INTEGER,
  PRIMARY KEY (entry, line),
  CHECK (source <> target),
  CHECK (volume > 0 OR cost > 0)
) STRICT, WITHOUT ROWID;

CREATE INDEX accounts_remeasured ON accounts (id) WHERE remeasured_volume IS NOT NULL;

CREATE INDEX moves_out ON moves (source);

CREATE INDEX moves_in ON moves (target);

CREATE INDEX moves_of_cuttings ON moves (cutting);

INSERT INTO counters (name, last) VALUES
  ('entry', 0), ('board', 0), ('tag', 0), ('delivery', 0), ('job', 0), ('profile', 0), ('plan', 0),
  ('cutting', 0), ('account', 17);

INSERT INTO events (name) VALUES
  ('received'), ('marked'), ('surveyed'), ('job added'), ('plan kept'), ('sawn'), ('undone'),
  ('tags reserved'), ('shop set'), ('remeasured');

INSERT INTO causes (name) VALUES
  ('board'), ('bought'), ('opening'), ('found'), ('returned'), ('credit'), ('parts'), ('kerf'),
  ('end trim'), ('defect'), ('machining'), ('unusable'), ('lost'), ('missing'), ('retired'),
  ('sold'), ('price difference'), ('remeasured');

INSERT INTO accounts (id, kind, whole_volume, volume, cost) VALUES
  (1, 'bought', 0, 0, 0), (2, 'opening', 0, 0, 0), (3, 'found', 0, 0, 0), (4, 'returned', 0, 0, 0),
  (5, 'credit', 0, 0, 0), (6, 'parts', 0, 0, 0), (7, 'kerf', 0, 0, 0), (8, 'end trim', 0, 0, 0),
  (9, 'defect', 0, 0, 0), (10, 'machining', 0, 0, 0), (11, 'unusable', 0, 0, 0),
  (12, 'lost', 0, 0, 0), (13, 'missing', 0, 0, 0), (14, 'retired', 0, 0, 0), (15, 'sold', 0, 0, 0),
  (16, 'price difference', 0, 0, 0), (17, 'remeasured', 0, 0, 0);

INSERT INTO defect_kinds (name, rank, letter, sound) VALUES
  ('sound knot', 1, 'K', 1), ('unsound knot', 2, 'U', 0), ('check', 3, 'C', 0),
  ('split', 4, 'S', 0), ('wane', 5, 'W', 0), ('hole', 6, 'H', 0), ('stain', 7, 'T', 1),
  ('sapwood', 8, 'L', 1), ('pith', 9, 'P', 0), ('bark pocket', 10, 'B', 0), ('gum', 11, 'G', 1),
  ('good', 12, NULL, 1), ('show', 13, NULL, 1);

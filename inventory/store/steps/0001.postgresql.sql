-- Step 1, triggers in PostgreSQL's words. Statements are separated by blank lines.

CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'past_changed';
END $$;

CREATE FUNCTION refuse_sealed() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM seals WHERE entry = NEW.entry) THEN
    RAISE EXCEPTION 'past_changed';
  END IF;
  RETURN NEW;
END $$;

CREATE FUNCTION refuse_sealed_entry() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM seals WHERE entry = OLD.id) THEN
    RAISE EXCEPTION 'past_changed';
  END IF;
  RETURN NEW;
END $$;

CREATE FUNCTION refuse_sealed_cutting() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM seals
    WHERE entry = coalesce(NEW.entry, (SELECT entry FROM plans WHERE id = NEW.plan))) THEN
    RAISE EXCEPTION 'past_changed';
  END IF;
  RETURN NEW;
END $$;

CREATE FUNCTION refuse_sealed_piece() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT 1 FROM cuttings JOIN plans ON plans.id = cuttings.plan
    JOIN seals ON seals.entry = coalesce(cuttings.entry, plans.entry)
    WHERE cuttings.id = NEW.cutting) THEN
    RAISE EXCEPTION 'past_changed';
  END IF;
  RETURN NEW;
END $$;

CREATE FUNCTION post_moves() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NOT EXISTS (SELECT 1 FROM entries WHERE id = NEW.entry) THEN
    RAISE EXCEPTION 'seal_without_entry';
  END IF;
  UPDATE accounts SET volume = accounts.volume + s.volume, cost = accounts.cost + s.cost,
    whole_volume = coalesce(remeasured_volume, whole_volume), remeasured_volume = NULL
  FROM (
    SELECT account, CAST(sum(t.volume) AS BIGINT) AS volume, CAST(sum(t.cost) AS BIGINT) AS cost
    FROM (
      SELECT target AS account, volume, cost FROM moves WHERE entry = NEW.entry
      UNION ALL SELECT source, -volume, -cost FROM moves WHERE entry = NEW.entry
      UNION ALL SELECT id, 0, 0 FROM accounts WHERE remeasured_volume IS NOT NULL) t
    GROUP BY account) s
  WHERE accounts.id = s.account;
  RETURN NEW;
END $$;

CREATE TRIGGER seal_posts AFTER INSERT ON seals
  FOR EACH ROW EXECUTE FUNCTION post_moves();

CREATE TRIGGER seals_stand BEFORE UPDATE OR DELETE ON seals
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER entries_stand BEFORE UPDATE ON entries
  FOR EACH ROW EXECUTE FUNCTION refuse_sealed_entry();

CREATE TRIGGER entries_stay BEFORE DELETE ON entries
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER moves_sealed BEFORE INSERT ON moves
  FOR EACH ROW EXECUTE FUNCTION refuse_sealed();

CREATE TRIGGER moves_stand BEFORE UPDATE OR DELETE ON moves
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER edits_sealed BEFORE INSERT ON edits
  FOR EACH ROW EXECUTE FUNCTION refuse_sealed();

CREATE TRIGGER edits_stand BEFORE UPDATE OR DELETE ON edits
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER cuttings_sealed BEFORE INSERT ON cuttings
  FOR EACH ROW EXECUTE FUNCTION refuse_sealed_cutting();

CREATE TRIGGER pieces_sealed BEFORE INSERT ON pieces
  FOR EACH ROW EXECUTE FUNCTION refuse_sealed_piece();

CREATE TRIGGER cuttings_stand BEFORE UPDATE OR DELETE ON cuttings
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER pieces_stand BEFORE UPDATE OR DELETE ON pieces
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER profiles_stand BEFORE UPDATE OF id, body ON profiles
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER profiles_stay BEFORE DELETE ON profiles
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER plans_stay BEFORE DELETE ON plans
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER boards_stay BEFORE DELETE ON boards
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

CREATE TRIGGER accounts_stay BEFORE DELETE ON accounts
  FOR EACH ROW EXECUTE FUNCTION refuse_change();

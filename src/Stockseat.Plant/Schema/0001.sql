-- Every entry of every ledger, exactly as the ledger has it, and who may do what.
CREATE SCHEMA IF NOT EXISTS stockseat;
REVOKE ALL ON SCHEMA stockseat FROM PUBLIC;

CREATE TABLE stockseat.schema_version (
  version integer PRIMARY KEY,
  applied timestamptz NOT NULL DEFAULT clock_timestamp()
);
COMMENT ON TABLE stockseat.schema_version IS 'Which steps of the schema were applied, and when.';

CREATE TABLE stockseat.entry (
  ledger uuid NOT NULL,
  serial bigint NOT NULL,
  at timestamptz NOT NULL,
  cell text,
  kind text NOT NULL,
  fixture text,
  revision bigint,
  client text,
  tag text,
  body text NOT NULL,
  hash bytea NOT NULL,
  stored timestamptz NOT NULL DEFAULT clock_timestamp(),
  PRIMARY KEY (ledger, serial)
) PARTITION BY HASH (ledger);
COMMENT ON TABLE stockseat.entry IS 'One row for each entry of each ledger. The body is the record; the other columns are copies for looking things up.';
COMMENT ON COLUMN stockseat.entry.ledger IS 'The id of the ledger, from its first entry.';
COMMENT ON COLUMN stockseat.entry.serial IS 'The number of the entry in its ledger.';
COMMENT ON COLUMN stockseat.entry.at IS 'When the entry was written, by the clock of the cell.';
COMMENT ON COLUMN stockseat.entry.cell IS 'The cell of the client that asked; null where nobody asked.';
COMMENT ON COLUMN stockseat.entry.kind IS 'What the entry is: answer, refusal, measurement and so on.';
COMMENT ON COLUMN stockseat.entry.fixture IS 'The fixture; null where there is none.';
COMMENT ON COLUMN stockseat.entry.revision IS 'The revision of the fixture; null where there is none.';
COMMENT ON COLUMN stockseat.entry.client IS 'Who asked; null where nobody did.';
COMMENT ON COLUMN stockseat.entry.tag IS 'The word that the client sent along; null where there is none.';
COMMENT ON COLUMN stockseat.entry.body IS 'The entry as JSON, byte for byte as in the ledger (UTF-8).';
COMMENT ON COLUMN stockseat.entry.hash IS 'SHA-256 of the byte 1, the hash of the entry before, and the bytes of the body.';
COMMENT ON COLUMN stockseat.entry.stored IS 'When the row was stored, by the clock of the database.';

DO $$
BEGIN
  FOR i IN 0..15 LOOP
    EXECUTE format('CREATE TABLE stockseat.entry_%s PARTITION OF stockseat.entry FOR VALUES WITH (MODULUS 16, REMAINDER %s)', i, i);
  END LOOP;
END $$;
CREATE INDEX entry_at ON stockseat.entry USING brin (at) WITH (pages_per_range = 32, autosummarize = on);
-- What happens seldom, and everything that a review reads from long before its minutes.
CREATE INDEX entry_rare ON stockseat.entry (ledger, serial)
  WHERE kind IN ('clock-step', 'service-started', 'revision-adopted', 'note', 'emptied', 'snapshot');

CREATE TABLE stockseat.fork (
  ledger uuid NOT NULL,
  serial bigint NOT NULL,
  stored_hash bytea NOT NULL,
  sent_hash bytea NOT NULL,
  sent_body text,
  host text NOT NULL,
  seen timestamptz NOT NULL DEFAULT clock_timestamp(),
  PRIMARY KEY (ledger, serial, sent_hash)
);
COMMENT ON TABLE stockseat.fork IS 'Where a cell''s ledger does not continue what is stored here: it was rolled back, or copied and continued twice.';
COMMENT ON COLUMN stockseat.fork.ledger IS 'The id of the ledger.';
COMMENT ON COLUMN stockseat.fork.serial IS 'The first entry that differs.';
COMMENT ON COLUMN stockseat.fork.stored_hash IS 'The hash of that entry here.';
COMMENT ON COLUMN stockseat.fork.sent_hash IS 'The hash of that entry in the cell; empty: the cell does not have that entry any more.';
COMMENT ON COLUMN stockseat.fork.sent_body IS 'The body of that entry in the cell; null: the cell does not have that entry any more.';
COMMENT ON COLUMN stockseat.fork.host IS 'The machine whose service found it.';
COMMENT ON COLUMN stockseat.fork.seen IS 'When it was first found, by the clock of the database.';

CREATE TABLE stockseat.verified (
  ledger uuid NOT NULL,
  last_serial bigint NOT NULL,
  faults integer NOT NULL,
  first_fault bigint,
  made timestamptz NOT NULL DEFAULT clock_timestamp(),
  PRIMARY KEY (ledger, made)
);
COMMENT ON TABLE stockseat.verified IS 'What stockseat plant verify found, where its login may write it down.';
COMMENT ON COLUMN stockseat.verified.ledger IS 'The id of the ledger.';
COMMENT ON COLUMN stockseat.verified.last_serial IS 'The last entry that was checked.';
COMMENT ON COLUMN stockseat.verified.faults IS 'How many faults were found; 0: the rows are intact up to that entry.';
COMMENT ON COLUMN stockseat.verified.first_fault IS 'The first entry with a fault; null: there is none, or it is not about one entry.';
COMMENT ON COLUMN stockseat.verified.made IS 'When it was checked, by the clock of the database.';

-- Roles belong to the whole server: another database may have made them already, or make them at this moment.
DO $$
DECLARE
  wanted text;
BEGIN
  FOREACH wanted IN ARRAY ARRAY['stockseat_writer', 'stockseat_reader'] LOOP
    IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = wanted) THEN
      BEGIN
        EXECUTE format('CREATE ROLE %I NOLOGIN', wanted);
      EXCEPTION WHEN duplicate_object OR unique_violation THEN NULL;
      END;
    END IF;
  END LOOP;
  EXECUTE format('GRANT TEMPORARY ON DATABASE %I TO stockseat_writer', current_database());
END $$;
GRANT USAGE ON SCHEMA stockseat TO stockseat_writer, stockseat_reader;
GRANT SELECT ON stockseat.schema_version, stockseat.entry, stockseat.fork, stockseat.verified TO stockseat_writer, stockseat_reader;
GRANT INSERT ON stockseat.entry, stockseat.fork, stockseat.verified TO stockseat_writer;

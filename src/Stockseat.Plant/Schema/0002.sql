-- Views with typed columns, for people's own tools. Lengths are in metres.
CREATE VIEW stockseat.served AS
SELECT e.ledger, e.serial, e.at, e.cell, e.client, e.tag, e.fixture, e.revision, b.purpose,
       (b.nest ->> 0)::integer AS nest_column, (b.nest ->> 1)::integer AS nest_row, b.diameter AS diameter_metres, b.lot, b.first,
       (b."shiftBase" ->> 0)::double precision AS shift_bx_metres, (b."shiftBase" ->> 1)::double precision AS shift_by_metres,
       (b."shiftBase" ->> 2)::double precision AS shift_bz_metres
FROM stockseat.entry e
CROSS JOIN LATERAL json_to_record(e.body::json) AS b(purpose text, nest json, diameter double precision, lot text, first boolean, "shiftBase" json)
WHERE e.kind = 'answer';
COMMENT ON VIEW stockseat.served IS 'Every answer.';
COMMENT ON COLUMN stockseat.served.purpose IS 'pick or place.';
COMMENT ON COLUMN stockseat.served.nest_column IS 'The column of the nest, from 0.';
COMMENT ON COLUMN stockseat.served.nest_row IS 'The row of the nest, from 0.';
COMMENT ON COLUMN stockseat.served.diameter_metres IS 'The diameter that the answer rests on.';
COMMENT ON COLUMN stockseat.served.lot IS 'The lot of the stock; null where none was named.';
COMMENT ON COLUMN stockseat.served.first IS 'Whether the first move was to be made slowly.';
COMMENT ON COLUMN stockseat.served.shift_bx_metres IS 'The shift along base x.';
COMMENT ON COLUMN stockseat.served.shift_by_metres IS 'The shift along base y.';
COMMENT ON COLUMN stockseat.served.shift_bz_metres IS 'The shift along base z.';

CREATE VIEW stockseat.measured AS
SELECT e.ledger, e.serial, e.at, e.cell, e.client, e.tag, e.fixture, b.diameter AS diameter_metres,
       json_array_length(b.readings) AS readings, b.gauge, b.lot
FROM stockseat.entry e
CROSS JOIN LATERAL json_to_record(e.body::json) AS b(diameter double precision, readings json, gauge text, lot text)
WHERE e.kind = 'measurement';
COMMENT ON VIEW stockseat.measured IS 'Every measured diameter.';
COMMENT ON COLUMN stockseat.measured.diameter_metres IS 'The measured diameter.';
COMMENT ON COLUMN stockseat.measured.readings IS 'How many readings it rests on.';
COMMENT ON COLUMN stockseat.measured.gauge IS 'The gauge; null where none was named.';
COMMENT ON COLUMN stockseat.measured.lot IS 'The lot of the stock; null where none was named.';

CREATE VIEW stockseat.refused AS
SELECT e.ledger, e.serial, e.at, e.cell, e.client, e.tag, e.fixture, e.revision, b.asked, b.reason, b.number AS reason_number, b.text
FROM stockseat.entry e
CROSS JOIN LATERAL json_to_record(e.body::json) AS b(asked text, reason text, number integer, text text)
WHERE e.kind = 'refusal';
COMMENT ON VIEW stockseat.refused IS 'Every refusal.';
COMMENT ON COLUMN stockseat.refused.asked IS 'What was asked: locate, measured and so on.';
COMMENT ON COLUMN stockseat.refused.reason IS 'Why it was refused.';
COMMENT ON COLUMN stockseat.refused.reason_number IS 'The number of the reason, which never changes its meaning.';
COMMENT ON COLUMN stockseat.refused.text IS 'The same in words, with the values.';

CREATE VIEW stockseat.adopted AS
SELECT e.ledger, e.serial, e.at, e.client, e.fixture, e.revision, b.by, b.why, b.automatic, b.digest
FROM stockseat.entry e
CROSS JOIN LATERAL json_to_record(e.body::json) AS b(by text, why text, automatic boolean, digest text)
WHERE e.kind = 'revision-adopted';
COMMENT ON VIEW stockseat.adopted IS 'Every revision that was put into force.';
COMMENT ON COLUMN stockseat.adopted.by IS 'Who adopted it.';
COMMENT ON COLUMN stockseat.adopted.why IS 'Why, in their words.';
COMMENT ON COLUMN stockseat.adopted.automatic IS 'Whether the service adopted it by itself, as its configuration says.';
COMMENT ON COLUMN stockseat.adopted.digest IS 'SHA-256 of the content of the revision.';

CREATE VIEW stockseat.rechecked AS
SELECT e.ledger, e.serial, e.at, e.cell, e.client, e.fixture, e.revision, b.by, b.master AS master_metres,
       (b.miss ->> 'along')::double precision AS along_metres, (b.miss ->> 'across')::double precision AS across_metres,
       (b.miss ->> 'outOfPlan')::double precision AS out_of_plan_metres, b.limit AS limit_metres, b.passed
FROM stockseat.entry e
CROSS JOIN LATERAL json_to_record(e.body::json) AS b(by text, master double precision, miss json, "limit" double precision, passed boolean)
WHERE e.kind = 'recheck';
COMMENT ON VIEW stockseat.rechecked IS 'Every recheck with a master.';
COMMENT ON COLUMN stockseat.rechecked.by IS 'Who made it.';
COMMENT ON COLUMN stockseat.rechecked.master_metres IS 'The diameter of the master.';
COMMENT ON COLUMN stockseat.rechecked.along_metres IS 'By how much it was missed along the seat axis.';
COMMENT ON COLUMN stockseat.rechecked.across_metres IS 'By how much it was missed across the seat axis.';
COMMENT ON COLUMN stockseat.rechecked.out_of_plan_metres IS 'By how much it was missed out of the plan.';
COMMENT ON COLUMN stockseat.rechecked.limit_metres IS 'The most that it may be missed by; null where none was stated.';
COMMENT ON COLUMN stockseat.rechecked.passed IS 'Whether it passed; null where it was not judged.';

-- Each ledger once: from one id to the next by the key, so that it takes the same time however many entries there are.
CREATE VIEW stockseat.cells AS
WITH RECURSIVE known(ledger) AS (
  (SELECT ledger FROM stockseat.entry ORDER BY ledger LIMIT 1)
  UNION ALL
  SELECT (SELECT e.ledger FROM stockseat.entry e WHERE e.ledger > k.ledger ORDER BY e.ledger LIMIT 1) FROM known k WHERE k.ledger IS NOT NULL
)
SELECT c.cell, k.ledger, f.serial AS first_serial, n.serial AS last_serial, n.at AS last_at, n.stored AS last_stored, n.stored - n.at AS lag,
       n.kind = 'rolled-over' AND n.serial > f.serial AS closed, d.serial AS differs_from, d.seen AS differs_since,
       r.fixture, r.revision, CASE WHEN d.serial IS NOT NULL THEN false ELSE v.faults = 0 END AS intact, v.last_serial AS verified_to, v.made AS verified_at
FROM known k
CROSS JOIN LATERAL (SELECT e.serial FROM stockseat.entry e WHERE e.ledger = k.ledger ORDER BY e.serial LIMIT 1) f
CROSS JOIN LATERAL (SELECT e.serial, e.at, e.stored, e.kind FROM stockseat.entry e WHERE e.ledger = k.ledger ORDER BY e.serial DESC LIMIT 1) n
LEFT JOIN LATERAL (
  SELECT e.cell FROM stockseat.entry e WHERE e.ledger = k.ledger AND e.serial > n.serial - 10000 AND e.cell IS NOT NULL ORDER BY e.serial DESC LIMIT 1
) c ON true
LEFT JOIN LATERAL (SELECT o.serial, o.seen FROM stockseat.fork o WHERE o.ledger = k.ledger ORDER BY o.seen LIMIT 1) d ON true
LEFT JOIN LATERAL (
  SELECT e.fixture, e.revision FROM stockseat.entry e
  WHERE e.ledger = k.ledger AND e.serial > n.serial - 10000 AND e.fixture IS NOT NULL AND e.revision IS NOT NULL ORDER BY e.serial DESC LIMIT 1
) r ON true
LEFT JOIN LATERAL (SELECT o.faults, o.last_serial, o.made FROM stockseat.verified o WHERE o.ledger = k.ledger ORDER BY o.made DESC LIMIT 1) v ON true
WHERE k.ledger IS NOT NULL;
COMMENT ON VIEW stockseat.cells IS 'Each ledger with its newest entry.';
COMMENT ON COLUMN stockseat.cells.cell IS 'The cell of the newest ask among the last 10,000 entries; null: none of them has a cell.';
COMMENT ON COLUMN stockseat.cells.ledger IS 'The id of the ledger.';
COMMENT ON COLUMN stockseat.cells.first_serial IS 'Its first entry.';
COMMENT ON COLUMN stockseat.cells.last_serial IS 'Its newest entry here.';
COMMENT ON COLUMN stockseat.cells.last_at IS 'When that was written, by the clock of the cell.';
COMMENT ON COLUMN stockseat.cells.last_stored IS 'When that was stored, by the clock of the database.';
COMMENT ON COLUMN stockseat.cells.lag IS 'The time between the two.';
COMMENT ON COLUMN stockseat.cells.closed IS 'Whether the ledger has ended and another one continues it.';
COMMENT ON COLUMN stockseat.cells.differs_from IS 'The first entry that the cell has in another form, or no more; null: no difference was found.';
COMMENT ON COLUMN stockseat.cells.differs_since IS 'When that was first found.';
COMMENT ON COLUMN stockseat.cells.fixture IS 'The fixture of the newest entry with a revision among the last 10,000 entries; null: none of them has one.';
COMMENT ON COLUMN stockseat.cells.revision IS 'The revision of that fixture in that entry.';
COMMENT ON COLUMN stockseat.cells.intact IS 'False: a difference was found, or the last stockseat plant verify found a fault. Null: it was never verified.';
COMMENT ON COLUMN stockseat.cells.verified_to IS 'Up to which entry the last stockseat plant verify checked it; null: it was never verified.';
COMMENT ON COLUMN stockseat.cells.verified_at IS 'When that was, by the clock of the database.';

GRANT SELECT ON stockseat.served, stockseat.measured, stockseat.refused, stockseat.adopted, stockseat.rechecked, stockseat.cells
  TO stockseat_writer, stockseat_reader;

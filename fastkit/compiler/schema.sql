-- What does not follow from one record: the index of entries, the search table, the views.
-- The subject tables are made from fastkit/records by fastkit/compiler/build.py, one column a field.

CREATE TABLE meta (
    key TEXT PRIMARY KEY, -- schema_version, data_version, rows
    value TEXT NOT NULL
) STRICT;

CREATE TABLE entry (
    id TEXT PRIMARY KEY, -- kind:key, as typed after `show`
    kind TEXT NOT NULL,
    title TEXT NOT NULL CHECK (title <> '')
) STRICT;

CREATE VIRTUAL TABLE search USING fts5(entry UNINDEXED, kind UNINDEXED, title, words, prefix = '2 3');

-- Other names of an entry, whatever the number of names.
CREATE INDEX alias_entry ON alias (entry);

-- The vocabulary that a misspelt word is compared with.
CREATE VIRTUAL TABLE search_word USING fts5vocab(search, row);

CREATE VIEW thread_view AS
SELECT
    thread.*,
    round(thread.nominal_mm / 25.4, 4) AS nominal_in,
    (
        SELECT min(drill_mm) FROM tap_drill WHERE tap_drill.thread = thread.id
    ) AS tap_drill_mm,
    clearance_hole.close_mm AS clearance_close_mm,
    clearance_hole.medium_mm AS clearance_medium_mm,
    clearance_hole.coarse_mm AS clearance_coarse_mm
FROM thread
LEFT JOIN clearance_hole ON clearance_hole.size = thread.size;

CREATE VIEW torque_view AS
SELECT
    torque.*,
    round(torque.torque_nm / 1.3558179483314004, 2) AS torque_lbft, -- exact: 4.4482216152605 N x 0.3048 m
    thread.nominal_mm,
    thread.pitch_mm,
    grade.system AS grade_system,
    friction.title AS friction_title
FROM torque
JOIN thread ON thread.id = torque.thread
JOIN grade ON grade.id = torque.grade
JOIN friction ON friction.id = torque.friction;

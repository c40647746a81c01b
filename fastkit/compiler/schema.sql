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

CREATE VIRTUAL TABLE search USING fts5(entry UNINDEXED, kind UNINDEXED, title, words, serves, prefix = '2 3');

-- Other names of an entry, whatever the number of names.
CREATE INDEX alias_entry ON alias (entry);

-- The words of the search table and of the sayings, each once: what a misspelt one is compared with.
CREATE TABLE search_word (
    term TEXT PRIMARY KEY,
    entries INTEGER NOT NULL CHECK (entries >= 0), -- that hold it; none has a word of sayings alone
    sound TEXT NOT NULL -- its consonants as they are heard; empty where it is no word of letters
) STRICT, WITHOUT ROWID;

CREATE INDEX search_word_sound ON search_word (sound, entries, term);

-- Other words in what the data say in sentences: they ask for nothing and are no slips.
CREATE TABLE plain_word (word TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;

-- Pairs of letters of each of them that is letters alone, its ends marked: which words come near.
CREATE TABLE search_pair (
    pair TEXT NOT NULL,
    term TEXT NOT NULL REFERENCES search_word(term),
    PRIMARY KEY (pair, term)
) STRICT, WITHOUT ROWID;

-- The first two words by which each entry is found, those of its key before all: `steel zinc`.
CREATE TABLE search_key (
    start TEXT NOT NULL,
    place INTEGER NOT NULL, -- rowid of the entry
    PRIMARY KEY (start, place)
) STRICT, WITHOUT ROWID;

-- The words of the phrases, each once, and each phrase (its rowid) by its first word that counts.
CREATE TABLE phrase_word (word TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
CREATE TABLE phrase_start (
    word TEXT NOT NULL REFERENCES phrase_word(word),
    phrase INTEGER NOT NULL,
    PRIMARY KEY (word, phrase)
) STRICT, WITHOUT ROWID;

-- Words one of which stands in whatever line says a name of a row (its rowid) that tells of danger.
CREATE TABLE name_key (
    word TEXT NOT NULL,
    of TEXT NOT NULL,
    row INTEGER NOT NULL,
    PRIMARY KEY (word, of, row)
) STRICT, WITHOUT ROWID;

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

CREATE VIEW head_view AS
SELECT
    head.*,
    thread_size.nominal_mm,
    drive.size AS drive_size,
    drive_system.title AS drive_system,
    drive.across_flats_mm,
    round(drive.across_flats_mm / 25.4, 4) AS across_flats_in,
    source.title AS source_title
FROM head
JOIN (SELECT size, min(nominal_mm) AS nominal_mm FROM thread GROUP BY size) AS thread_size
    ON thread_size.size = head.size
LEFT JOIN drive ON drive.id = head.drive
LEFT JOIN drive_system ON drive_system.id = drive.system
JOIN source ON source.id = head.source;

-- What each tool on the drive is proved to carry: the smallest torque, where two stand for a tool.
CREATE VIEW drive_view AS
SELECT
    drive.*,
    drive_system.title AS system_title,
    round(drive.across_flats_mm / 25.4, 4) AS across_flats_in,
    torque.key_nm,
    torque.bit_nm,
    torque.blade_nm,
    torque.open_wrench_nm,
    torque.ring_wrench_nm,
    torque.socket_nm,
    key_arm.short_arm_mm,
    key_arm.long_arm_mm,
    source.title AS source_title
FROM drive
JOIN drive_system ON drive_system.id = drive.system
LEFT JOIN (
    SELECT
        drive,
        min(proof_torque_nm) FILTER (WHERE tool = 'key') AS key_nm,
        min(proof_torque_nm) FILTER (WHERE tool = 'bit') AS bit_nm,
        min(proof_torque_nm) FILTER (WHERE tool = 'blade') AS blade_nm,
        min(proof_torque_nm) FILTER (WHERE tool = 'open wrench') AS open_wrench_nm,
        min(proof_torque_nm) FILTER (WHERE tool = 'ring wrench') AS ring_wrench_nm,
        min(proof_torque_nm) FILTER (WHERE tool = 'socket') AS socket_nm
    FROM drive_torque
    GROUP BY drive
) AS torque ON torque.drive = drive.id
LEFT JOIN key_arm ON key_arm.drive = drive.id
JOIN source ON source.id = drive.source;

CREATE VIEW grade_view AS
SELECT
    grade.id,
    grade.system,
    grade.product,
    grade.mark,
    strength.size_range,
    strength.size_from_mm,
    strength.size_to_mm,
    strength.tensile_min_mpa,
    strength.yield_min_mpa,
    strength.proof_mpa,
    round(strength.proof_mpa / 6.894757, 1) AS proof_ksi, -- 1 lbf/in2 = 4.4482216152605 N / (25.4 mm)^2
    strength.elongation_min_pct,
    coalesce(strength.source, grade.source) AS source,
    coalesce(strength.checked, grade.checked) AS checked
FROM grade
LEFT JOIN (
    SELECT
        grade, size_range, size_from_mm, size_to_mm, tensile_min_mpa, yield_min_mpa, proof_mpa,
        elongation_min_pct, source, checked
    FROM grade_row
    UNION ALL
    SELECT
        grade, size_range, size_from_mm, size_to_mm, NULL, NULL, proof_mpa, NULL, source, checked
    FROM nut_row
) AS strength ON strength.grade = grade.id;

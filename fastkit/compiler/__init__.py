"""data/ -> one SQLite file, at install time; the only user of sqlite-utils' writing side."""

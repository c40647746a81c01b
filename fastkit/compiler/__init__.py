"""data/ -> one SQLite file, at install time."""

"""The rows of the database as plain tuples, a module a subject, each with its source."""

"""The compiled file, opened read-only: look-up and search."""

"""The version of the code, in one place; the build reads it from here."""

VERSION = "0.1.0"

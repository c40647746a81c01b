"""The version of the code; the data has its own, a hash of `data/`."""

VERSION = "0.1.0"

"""One module a question: fetch records, compute, word the result; the public Python API."""

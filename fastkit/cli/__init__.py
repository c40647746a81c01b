"""Thin: parse, ask, show; one module a command."""

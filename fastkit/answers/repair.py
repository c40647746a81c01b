"""Stub until written."""

repair = None

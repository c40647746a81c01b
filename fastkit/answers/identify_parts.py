"""Stub until written."""

identify_drive = identify_grade = identify_head = None

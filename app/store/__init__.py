"""Rows: lookups and inserts that take a session; they never commit and never know Flask."""

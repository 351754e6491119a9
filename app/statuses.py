"""The exit statuses of every command."""

DONE = 0
DOUBTS = 1
"""Done, with doubts that were printed."""
REFUSED = 2
"""Refused, with a sentence."""
BROKE = 3
"""Something broke, with a reference number that the log has too."""

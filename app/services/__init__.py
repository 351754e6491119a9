"""Verbs: one transaction each. The database comes first, then plain values; no request, no template."""

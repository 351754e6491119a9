"""The outside's door, /api/v1: bodies in, services called, answers out, described by an OpenAPI document."""

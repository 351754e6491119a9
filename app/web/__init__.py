"""Pages and /api/v1: routes translate; services decide."""

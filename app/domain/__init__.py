"""Rules and words of the cord test; standard library only."""

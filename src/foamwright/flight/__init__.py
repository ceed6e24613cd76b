"""Performance, modes and hand launch."""

"""Pure functions from frames to frames, one module per question the staff asks."""

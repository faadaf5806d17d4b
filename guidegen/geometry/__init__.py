"""Build file and one size in → pieces out: graded, developed, bevelled, mirrored, marked (mm)."""

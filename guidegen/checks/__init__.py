"""Build file in → problems out: names, pairs, sizes, steps, cautions (no geometry)."""

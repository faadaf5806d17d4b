"""Safety signs and signal words, drawn by us."""

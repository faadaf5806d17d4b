"""Drawings of a step: the pieces at hand, their edges, the layers so far."""

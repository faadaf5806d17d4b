"""Drawings of bodies and sizes: where to measure, whom the sizes serve, outlines nested."""

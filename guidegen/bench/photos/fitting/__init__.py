"""Measured places along a line in → few lines, arcs and cubics through them out."""

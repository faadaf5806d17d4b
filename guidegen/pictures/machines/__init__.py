"""Drawings for cutters, plotters and lasers."""

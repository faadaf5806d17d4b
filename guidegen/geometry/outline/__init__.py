"""Segments, runs and outlines, and all that is measured or made of them alone. mm, y upward."""

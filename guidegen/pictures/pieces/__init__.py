"""Drawings of pieces: outlines, sections, layers, joins."""

"""Measurements of a size in → a plain figure at rest."""

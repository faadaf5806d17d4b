"""Checks of texts for readers: references, letters, licence, translations."""

"""Texts for readers by where they stand: CommonMark, and the same in other languages."""

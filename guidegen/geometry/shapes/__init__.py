"""Dimensions in → outline of a computed shape out, one family of shapes per file."""

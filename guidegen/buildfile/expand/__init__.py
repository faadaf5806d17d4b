"""Repeats and sequences of steps in → plain steps out."""

"""A body in → the size that serves it best, and doubts about its measurements."""

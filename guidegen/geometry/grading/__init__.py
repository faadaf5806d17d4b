"""A drawn piece and the numbers of one size in → the piece graded for it."""

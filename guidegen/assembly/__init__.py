"""Pieces of one size in → the finished thing, worn or standing, and what is seen of it."""

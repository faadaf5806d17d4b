"""Rows of plates that move on one another → how far, what ends it, what is cut for them."""

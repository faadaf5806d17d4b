"""Flat pieces in → sheets of foam in space."""

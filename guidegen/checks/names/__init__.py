"""Checks of names and values: each names something, each size has each."""

"""Drawings of time: one person, a team, a class."""

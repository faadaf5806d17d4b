"""Drawings of what the trade builds: rows that move, cloth, things, circuits."""
